# The libraries that the rooms link, by one name each. Included by the build, and installed beside hatringConfig.cmake, so
# that a program that embeds hatring finds them on its own machine.
find_package(Eigen3 3.4 REQUIRED NO_MODULE)
find_package(Boost 1.74 REQUIRED)
find_package(fmt REQUIRED)
find_package(Threads REQUIRED)
find_package(yaml-cpp REQUIRED)
# GPX files are XML.
find_package(pugixml REQUIRED)
# HL for the dimension scales of the result file. Static where there is such a library and nobody chose otherwise: the
# shared one brings thirty more, and to load them takes as long as half of the reading of a session. They serve a driver
# for files on the web, which nothing here refers to.
if(DEFINED HDF5_USE_STATIC_LIBRARIES)
  find_package(HDF5 REQUIRED COMPONENTS CXX HL)
else()
  set(HDF5_USE_STATIC_LIBRARIES ON)
  find_package(HDF5 REQUIRED COMPONENTS CXX HL)
  unset(HDF5_USE_STATIC_LIBRARIES)
endif()
list(FILTER HDF5_CXX_LIBRARIES EXCLUDE REGEX "lib(curl|crypto)\\.")
list(FILTER HDF5_HL_LIBRARIES EXCLUDE REGEX "lib(curl|crypto)\\.")
find_library(UDUNITS2_LIBRARY udunits2 REQUIRED)
find_path(UDUNITS2_INCLUDE_DIR udunits2.h REQUIRED)
find_library(CSV_LIBRARY csv REQUIRED)
find_path(CSV_INCLUDE_DIR csv.h REQUIRED)

# hatring_dependency(NAME LIBRARIES ... INCLUDES ...): hatring::NAME for a library that brings no CMake target.
function(hatring_dependency name)
  cmake_parse_arguments(ARG "" "" "LIBRARIES;INCLUDES" ${ARGN})
  if(NOT TARGET hatring::${name})
    add_library(hatring::${name} INTERFACE IMPORTED GLOBAL)
    target_link_libraries(hatring::${name} INTERFACE ${ARG_LIBRARIES})
    target_include_directories(hatring::${name} INTERFACE ${ARG_INCLUDES})
  endif()
endfunction()
hatring_dependency(hdf5 LIBRARIES ${HDF5_HL_LIBRARIES} ${HDF5_CXX_LIBRARIES} INCLUDES ${HDF5_INCLUDE_DIRS})
hatring_dependency(udunits2 LIBRARIES ${UDUNITS2_LIBRARY} INCLUDES ${UDUNITS2_INCLUDE_DIR})
hatring_dependency(csv LIBRARIES ${CSV_LIBRARY} INCLUDES ${CSV_INCLUDE_DIR})
