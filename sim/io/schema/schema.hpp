// SPDX-License-Identifier: MIT
//! \file
//! The schema: one description per key, from which parsing, defaults and their reasons, messages about unknown keys
//! and the key reference all come. Each topic (car, rotor, ...) builds its own Section in schema_TOPIC.cpp.
#pragma once

#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "sim/io/reader.hpp"

namespace hatring::io {

class SectionBase;

//! What is used where a key is left out.
struct Fallback {
  std::string text;  //!< as a config would write it
  std::string reason;
};

//! One key, types erased. `void*` is the object that its section fills.
struct Key {
  std::string name, type, doc;
  Range range;
  Fallback fallback;      //!< empty text: none
  bool optional = false;  //!< may be left out and nothing is read in its place; fallback then says what that means
  std::string when_text;
  std::function<bool(const void*)> applies;  //!< needed and defaulted only then; empty = always
  std::function<Fallback(const void*, const session::Case&)> computed;  //!< a fallback that depends on keys read before
  std::string computed_text;
  const SectionBase* section = nullptr;  //!< of a map
  //! \param node nullptr when a section is left out  \param where a place to complain about
  std::function<void(Reader&, const NodePtr& node, const Mark& where, void* object)> read;
};

class SectionBase {
 public:
  explicit SectionBase(std::string doc) : doc_(std::move(doc)) {}

  //! Fills the object; unknown and missing keys are reported, defaults recorded as assumptions.
  void read_keys(Reader& reader, const NodePtr& node, const Mark& where, void* object) const;
  //! Does it hold a key that a config must give?
  [[nodiscard]] bool demanding() const;
  [[nodiscard]] std::vector<std::string> names() const;
  [[nodiscard]] const std::vector<Key>& keys() const { return keys_; }
  [[nodiscard]] const std::string& doc() const { return doc_; }

 protected:
  Key& add(Key key) { return keys_.emplace_back(std::move(key)); }

 private:
  void read_absent(Reader& reader, const Key& key, const Mark& where, void* object) const;

  std::string doc_;
  std::vector<Key> keys_;
};

//! What a section says about one of its keys. Without fallback, computed or optional the key must be given.
template <class T>
struct About {
  std::string doc = {};
  std::string fallback = {};
  std::string reason = {};
  bool optional = false;
  std::string above = {}, from = {}, to = {}, below = {};  //!< bounds, with units
  std::string when_text = {};                              //!< "vented rings"
  std::function<bool(const T&)> when = {};
  std::function<Fallback(const T&, const session::Case&)> computed = {};
  std::string computed_text = {};  //!< what `computed` gives, for the key reference
};

//! Bounds as text to a range in SI.
[[nodiscard]] Range make_range(Quantity kind, const std::string& above, const std::string& from, const std::string& to,
                               const std::string& below);

//! The keys of a map that fills a T.
template <class T>
class Section : public SectionBase {
 public:
  using SectionBase::SectionBase;
  using ReadValue = std::function<void(Reader&, const NodePtr&, T&)>;

  void read(Reader& reader, const NodePtr& node, const Mark& where, T& object) const {
    read_keys(reader, node, where, &object);
  }

  //! Any value; `type` says in the key reference what is expected.
  Section& custom(std::string name, std::string type, ReadValue read_value, About<T> about, Range range = {},
                  const SectionBase* inner = nullptr) {
    Key key = described(std::move(name), std::move(type), std::move(about));
    key.section = inner;
    key.range = std::move(range);
    key.read = [read_value = std::move(read_value)](Reader& r, const NodePtr& node, const Mark&, void* object) {
      read_value(r, node, *static_cast<T*>(object));
    };
    add(std::move(key));
    return *this;
  }

  //! A number with a unit; Member is double or std::optional<double>.
  template <class Member>
  Section& quantity(std::string name, Member T::*member, Quantity kind, About<T> about) {
    Range range = make_range(kind, about.above, about.from, about.to, about.below);
    return custom(
        std::move(name), std::string(name_of(kind)),
        [member, kind, range](Reader& r, const NodePtr& node, T& object) {
          if (const auto value = r.quantity(*node, kind, range)) object.*member = *value;
        },
        std::move(about), range);
  }

  Section& integer(std::string name, int T::*member, About<T> about) {
    Range range = make_range(Quantity::number, about.above, about.from, about.to, about.below);
    return custom(
        std::move(name), "a whole number",
        [member, range](Reader& r, const NodePtr& node, T& object) {
          if (const auto value = r.integer(*node, range)) object.*member = *value;
        },
        std::move(about), range);
  }

  Section& flag(std::string name, bool T::*member, About<T> about) {
    return custom(
        std::move(name), "on or off",
        [member](Reader& r, const NodePtr& node, T& object) {
          if (const auto value = r.flag(*node)) object.*member = *value;
        },
        std::move(about));
  }

  Section& text(std::string name, std::string T::*member, About<T> about) {
    return custom(
        std::move(name), "text",
        [member](Reader& r, const NodePtr& node, T& object) {
          if (const auto value = r.text(*node)) object.*member = *value;
        },
        std::move(about));
  }

  Section& material(std::string name, std::string T::*member, About<T> about) {
    return custom(
        std::move(name), "a material",
        [member](Reader& r, const NodePtr& node, T& object) {
          if (const auto value = r.material(*node)) object.*member = *value;
        },
        std::move(about));
  }

  //! One word of a few, each standing for a value.
  template <class Member, class Value>
  Section& choice(std::string name, Member T::*member, std::vector<std::pair<std::string, Value>> choices,
                  About<T> about) {
    std::vector<std::string> words;
    std::string type;
    for (const auto& [word, value] : choices) {
      words.push_back(word);
      type += (type.empty() ? "one of " : ", ") + word;
    }
    return custom(
        std::move(name), type,
        [member, words, choices = std::move(choices)](Reader& r, const NodePtr& node, T& object) {
          if (const auto index = r.choice(*node, words)) object.*member = choices[*index].second;
        },
        std::move(about));
  }

  //! A map with a section of its own.
  template <class U>
  Section& section(std::string name, U T::*member, const Section<U>& inner, About<T> about = {}) {
    return nested(std::move(name), inner, std::move(about),
                  [member](void* object) -> void* { return &(static_cast<T*>(object)->*member); });
  }
  //! A list of maps, each with the same section; `example` shows one in messages.
  template <class U>
  Section& list(std::string name, std::vector<U> T::*member, const Section<U>& inner, std::string example,
                About<T> about) {
    return custom(
        std::move(name), "a list of maps",
        [member, &inner, example = std::move(example)](Reader& r, const NodePtr& node, T& object) {
          if (!r.is_list(*node, example)) return;
          for (std::size_t i = 0; i < node->items.size(); ++i) {
            const Reader::Scope scope(r, std::to_string(i));
            inner.read(r, node->items[i], node->items[i]->mark, (object.*member).emplace_back());
          }
        },
        std::move(about), {}, &inner);
  }
  //! A map whose keys fill this very object.
  Section& section(std::string name, const Section<T>& inner, About<T> about = {}) {
    return nested(std::move(name), inner, std::move(about), [](void* object) { return object; });
  }

 private:
  Section& nested(std::string name, const SectionBase& inner, About<T> about, std::function<void*(void*)> part) {
    if (about.doc.empty()) about.doc = inner.doc();
    Key key = described(std::move(name), "a map", std::move(about));
    key.section = &inner;
    key.read = [&inner, part = std::move(part)](Reader& r, const NodePtr& node, const Mark& where, void* object) {
      inner.read_keys(r, node, where, part(object));
    };
    add(std::move(key));
    return *this;
  }

  static Key described(std::string name, std::string type, About<T> about) {
    Key key;
    key.name = std::move(name);
    key.type = std::move(type);
    key.doc = std::move(about.doc);
    key.fallback = {std::move(about.fallback), std::move(about.reason)};
    key.optional = about.optional;
    key.when_text = std::move(about.when_text);
    if (about.when)
      key.applies = [when = std::move(about.when)](const void* object) { return when(*static_cast<const T*>(object)); };
    if (about.computed)
      key.computed = [f = std::move(about.computed)](const void* object, const session::Case& c) {
        return f(*static_cast<const T*>(object), c);
      };
    key.computed_text = std::move(about.computed_text);
    return key;
  }
};

// The sections, one per topic.
[[nodiscard]] const Section<session::Case>& case_section();
[[nodiscard]] const Section<session::Car>& car_section();
//! The car for `hatring lap`, which wants power and assumes grip; and those keys alone, for the key reference.
[[nodiscard]] const Section<session::Car>& lap_car_section();
[[nodiscard]] const Section<session::Car>& lap_keys_section();
[[nodiscard]] const Section<session::Air>& air_section();
[[nodiscard]] const Section<session::Brakes>& brakes_section();
[[nodiscard]] const Section<session::Rotor>& rotor_section();
[[nodiscard]] const Section<session::Pads>& pads_section();
[[nodiscard]] const Section<models::Material>& material_section();
[[nodiscard]] const Section<session::Limits>& limits_section();
[[nodiscard]] const Section<session::CooldownPlans>& cooldown_plans_section();
[[nodiscard]] const Section<session::History>& history_section();
[[nodiscard]] const Section<session::Physics>& physics_section();
struct TrackInput;
[[nodiscard]] const Section<TrackInput>& track_section();
//! What `hatring sweep` changes from run to run.
struct SweepInput;
[[nodiscard]] const Section<SweepInput>& sweep_section();
struct TraceInput;
[[nodiscard]] const Section<TraceInput>& trace_section();

}  // namespace hatring::io
