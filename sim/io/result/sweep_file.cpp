// SPDX-License-Identifier: MIT
#include "sim/io/result/sweep_file.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/io/replace_file.hpp"
#include "sim/io/result/file.hpp"
#include "sim/io/result/reserved_file.hpp"
#include "sim/io/result/seal.hpp"
#include "sim/io/result/shards.hpp"
#include "sim/io/result/sweep_table.hpp"

namespace hatring::io {
namespace {

namespace fs = std::filesystem;

// Room that is kept for the library's own needs, and for the head of each column. [bytes]
constexpr std::uint64_t kSlack = 1 << 20, kHead = 1 << 13;
constexpr hsize_t kLeastChunk = 16, kChunk = 1024;       // rows
constexpr std::size_t kSlots = 1, kCache = 16 * kChunk;  // of the library's cache of chunks, by dataset; [bytes]

class Writer {
 public:
  //! \param made is called when the file has been made anew
  Writer(const fs::path& file, const std::vector<SweepColumn>& columns, hsize_t rows,
         const std::function<void()>& made) {
    H5::FileAccPropList access;
    // Rows come in order: of each dataset one chunk is enough in memory.
    access.setCache(0, kSlots, kCache, 1);
    access.setLibverBounds(H5F_LIBVER_EARLIEST, H5F_LIBVER_V18);
    // replace_file() holds a lock on it already.
    check(H5Pset_file_locking(access.getId(), 0, 1), "H5Pset_file_locking");
    auto properties = without_times(H5::FileCreatPropList());
    properties.setUserblock(kSealSize);
    file_ = H5::H5File(file.string(), H5F_ACC_TRUNC, properties, access);
    made();
    data_.reserve(columns.size());
    for (const SweepColumn& column : columns) data_.push_back(make(column, rows));
    make_scale(data_.front());
    for (std::size_t i = 1; i < data_.size(); ++i) attach_scale(data_[i], data_.front());
  }

  void write_meta(const SweepMeta& meta, const std::vector<SweepColumn>& columns) {
    const H5::Group root = file_.openGroup("/");
    set_attribute(root, "Conventions", std::string("CF-1.8"));
    set_attribute(root, "sweep_format", kSweepFormat);
    set_attribute(root, "program_version", meta.program_version);
    set_attribute(root, "created", meta.created);
    set_attribute(root, "session", meta.session);
    set_attribute(root, "runs", meta.runs);
    set_attribute(root, "shard", meta.shard);
    set_attribute(root, "shards", meta.shards);
    std::string paths;
    for (const SweepColumn& column : columns) paths += column.path + "\n";
    set_attribute(root, "columns", paths);
    write_text(root, {"config", "1", "Resolved configuration with every parameter at its first value, YAML"},
               meta.config);
    write_text(root, {"design", "1", "Parameters and design of the sweep"}, meta.description);
  }

  [[nodiscard]] std::uint64_t size() const { return file_.getFileSize(); }
  //! Closing the file tells nobody that it failed.
  void flush() const { file_.flush(H5F_SCOPE_GLOBAL); }

  void write(std::size_t column, hsize_t first, const SweepValues& values) {
    std::visit([&](const auto& v) { write_values(data_[column], first, v); }, values);
  }

 private:
  H5::DataSet make(const SweepColumn& column, hsize_t rows) {
    H5::Group group = file_.openGroup("/");
    std::string rest = column.path;
    for (std::size_t slash = rest.find('/'); slash != std::string::npos; slash = rest.find('/')) {
      const std::string name = rest.substr(0, slash);
      group = group.nameExists(name) ? group.openGroup(name) : make_group(group, name);
      rest.erase(0, slash + 1);
    }
    auto properties = without_times(H5::DSetCreatPropList());
    const hsize_t chunk = std::clamp(rows, kLeastChunk, kChunk);
    properties.setChunk(1, &chunk);
    if (column.kind == SweepColumn::Kind::number) properties.setFillValue(H5::PredType::NATIVE_DOUBLE, &kMissing);
    const hsize_t most = H5S_UNLIMITED;
    const H5::DataSpace space(1, &rows, &most);
    const H5::StrType text = text_type();
    const H5::DataType& type = column.kind == SweepColumn::Kind::number  ? H5::PredType::IEEE_F64LE
                               : column.kind == SweepColumn::Kind::whole ? H5::PredType::STD_I32LE
                                                                         : static_cast<const H5::DataType&>(text);
    const H5::DataSet data = group.createDataSet(rest, type, space, properties);
    describe(data, {rest, column.unit, column.long_name});
    if (column.kind == SweepColumn::Kind::number) set_attribute(data, "_FillValue", kMissing);
    if (!column.meanings.empty()) describe_flags(data, column.meanings);
    return data;
  }

  static void describe_flags(const H5::DataSet& data, const std::vector<std::string>& meanings) {
    std::vector<int> values;
    for (std::size_t i = 0; i < meanings.size(); ++i) values.push_back(static_cast<int>(i));
    const hsize_t count = values.size();
    data.createAttribute("flag_values", H5::PredType::STD_I32LE, H5::DataSpace(1, &count))
        .write(H5::PredType::NATIVE_INT, values.data());
    set_attribute(data, "flag_meanings", fmt::format("{}", fmt::join(meanings, " ")));
  }

  static void write_raw(const H5::DataSet& data, hsize_t first, hsize_t count, const H5::DataType& type,
                        const void* values) {
    H5::DataSpace space = data.getSpace();
    space.selectHyperslab(H5S_SELECT_SET, &count, &first);
    data.write(values, type, H5::DataSpace(1, &count), space);
  }
  static void write_values(const H5::DataSet& data, hsize_t first, const std::vector<double>& v) {
    write_raw(data, first, v.size(), H5::PredType::NATIVE_DOUBLE, v.data());
  }
  static void write_values(const H5::DataSet& data, hsize_t first, const std::vector<int>& v) {
    write_raw(data, first, v.size(), H5::PredType::NATIVE_INT, v.data());
  }
  static void write_values(const H5::DataSet& data, hsize_t first, const std::vector<std::string>& v) {
    std::vector<const char*> texts;
    texts.reserve(v.size());
    for (const std::string& text : v) texts.push_back(text.c_str());
    write_raw(data, first, v.size(), text_type(), texts.data());
  }

  H5::H5File file_;
  std::vector<H5::DataSet> data_;
};

using Blocks = std::function<std::vector<SweepValues>(std::uint64_t first, std::size_t count)>;

// At most, of a block in chunks of the file.
std::uint64_t bytes_of(const std::vector<SweepValues>& block, hsize_t rows) {
  constexpr std::uint64_t kWidest = 16;  // a reference to a text
  std::uint64_t out = block.size() * std::clamp(rows, kLeastChunk, kChunk) * kWidest;
  for (const SweepValues& values : block)
    if (const auto* texts = std::get_if<std::vector<std::string>>(&values))
      for (const std::string& text : *texts) out += text.size() + 2 * kWidest;
  return out;
}

void write_rows(const fs::path& file, const Hdf5Session& library, const SweepMeta& meta,
                const std::vector<SweepColumn>& columns, std::uint64_t rows, const Blocks& block) {
  const auto fail = [&](const std::string& why) {
    return ResultError(fmt::format("{}: not written: {}", file.string(), why));
  };
  try {
    replace_file(file, [&](const fs::path& temporary) {
      const ReservedFile room(temporary);
      const std::uint64_t head = kSlack + meta.config.size() + meta.description.size() + columns.size() * kHead;
      room.reserve(head);
      std::uint64_t size = 0;
      {
        Writer writer(temporary, columns, rows, [&room, head] { room.reserve(head); });
        writer.write_meta(meta, columns);
        for (std::uint64_t first = 0; first < rows; first += kChunk) {
          const auto count = static_cast<std::size_t>(std::min<std::uint64_t>(kChunk, rows - first));
          const std::vector<SweepValues> values = block(first, count);
          room.reserve(writer.size() + bytes_of(values, rows) + kSlack);
          for (std::size_t i = 0; i < columns.size(); ++i) writer.write(i, first, values.at(i));
        }
        writer.flush();
        size = writer.size();
      }
      room.cut(size);
      seal(temporary);
    });
  } catch (const H5::Exception& e) {
    throw fail(library.reason_of(e));
  } catch (const std::system_error& e) {
    throw fail(e.what());
  }
}

// The tables in the order of their shards.
std::vector<std::unique_ptr<SweepTable>> in_order(const std::vector<fs::path>& files, const Hdf5Session& library) {
  if (files.empty()) throw SweepError("found no files of shards to merge");
  std::vector<std::unique_ptr<SweepTable>> out;
  for (const fs::path& file : files) {
    auto table = std::make_unique<SweepTable>(file, library);
    const SweepMeta& meta = table->meta();
    const auto shards = static_cast<std::size_t>(meta.shards);
    if (out.empty()) out.resize(shards);
    const auto first = std::find_if(out.begin(), out.end(), [](const auto& t) { return t != nullptr; });
    if (first != out.end()) {
      const SweepMeta& other = (*first)->meta();
      if (shards != out.size() || meta.config != other.config || meta.description != other.description ||
          meta.program_version != other.program_version || meta.runs != other.runs ||
          table->columns() != (*first)->columns())
        throw SweepError(fmt::format("{}: is no shard of the same sweep as {}: {} differs", file.string(),
                                     files.front().string(),
                                     shards != out.size()                            ? "the number of shards"
                                     : meta.config != other.config                   ? "the config"
                                     : meta.program_version != other.program_version ? "the version of the program"
                                     : table->columns() != (*first)->columns()       ? "a column"
                                                                                     : "the design"));
    }
    auto& place = out[static_cast<std::size_t>(meta.shard - 1)];
    if (place != nullptr)
      throw SweepError(fmt::format("{}: shard {} of {} is given twice", file.string(), meta.shard, meta.shards));
    place = std::move(table);
  }
  for (std::size_t i = 0; i < out.size(); ++i)
    if (out[i] == nullptr)
      throw SweepError(
          fmt::format("shard {} of {} is missing: run it with --shard {}/{}", i + 1, out.size(), i + 1, out.size()));
  return out;
}

void check_done(const SweepTable& table) {
  constexpr std::size_t kStatus = 1;  // of the columns
  const auto status = std::get<std::vector<int>>(table.values(kStatus, 0, table.rows()));
  if (const auto open = std::count(status.begin(), status.end(), 0); open > 0)
    throw SweepError(fmt::format("shard {0} of {1}: {2} of {3} runs are not done: run it with --shard {0}/{1} again",
                                 table.meta().shard, table.meta().shards, open, table.rows()));
}

// Rows `first` to `first + count` of the whole.
SweepValues interleaved(const std::vector<std::unique_ptr<SweepTable>>& tables, std::size_t column, std::uint64_t first,
                        std::size_t count) {
  std::vector<SweepValues> parts;
  std::vector<std::uint64_t> begins;
  const auto shard = [&](std::size_t s) { return Shard{static_cast<int>(s) + 1, static_cast<int>(tables.size())}; };
  for (std::size_t s = 0; s < tables.size(); ++s) {
    begins.push_back(shard(s).rows_below(first));
    parts.push_back(tables[s]->values(column, begins.back(), shard(s).rows_below(first + count) - begins.back()));
  }
  return std::visit(
      [&](auto whole) {
        whole.clear();
        whole.reserve(count);
        for (std::uint64_t run = first; run < first + count; ++run) {
          const std::size_t s = run / Shard::kGroup % tables.size();
          whole.push_back(std::get<decltype(whole)>(parts[s])[shard(s).rows_below(run) - begins[s]]);
        }
        return SweepValues(std::move(whole));
      },
      parts.front());
}

}  // namespace

void write_sweep(const fs::path& file, const SweepMeta& meta, const std::vector<SweepColumn>& columns,
                 std::uint64_t rows, const Blocks& block) {
  Hdf5Session library;
  write_rows(file, library, meta, columns, rows, block);
}

struct SweepFile::Open {
  Hdf5Session library;
  std::unique_ptr<SweepTable> table;
};

SweepFile::SweepFile(const fs::path& file) : open_(std::make_unique<Open>()) {
  open_->table = std::make_unique<SweepTable>(file, open_->library);
}
SweepFile::~SweepFile() = default;

const SweepMeta& SweepFile::meta() const {
  return open_->table->meta();
}
const std::vector<SweepColumn>& SweepFile::columns() const {
  return open_->table->columns();
}
std::uint64_t SweepFile::rows() const {
  return open_->table->rows();
}
SweepValues SweepFile::column(std::size_t index) const {
  return open_->table->values(index, 0, rows());
}

void merge_sweeps(const std::vector<fs::path>& shards, const fs::path& file, const std::string& created) {
  Hdf5Session library;
  const auto tables = in_order(shards, library);
  for (const auto& table : tables) check_done(*table);
  SweepMeta meta = tables.front()->meta();
  meta.created = created;
  meta.shard = meta.shards = 1;
  const std::vector<SweepColumn>& columns = tables.front()->columns();
  const auto block = [&](std::uint64_t first, std::size_t count) {
    std::vector<SweepValues> out;
    out.reserve(columns.size());
    for (std::size_t column = 0; column < columns.size(); ++column)
      out.push_back(interleaved(tables, column, first, count));
    return out;
  };
  write_rows(file, library, meta, columns, static_cast<std::uint64_t>(meta.runs), block);
}

}  // namespace hatring::io
