# Flags shared by every target of ours, and the two functions that the rooms use.
include(HatringDependencies)
find_package(CLI11 REQUIRED)
find_package(nlohmann_json REQUIRED)

add_library(hatring_flags INTERFACE)
target_include_directories(hatring_flags INTERFACE ${PROJECT_SOURCE_DIR} ${PROJECT_BINARY_DIR})
target_compile_options(hatring_flags INTERFACE -Wall -Wextra -Wconversion)
if(HATRING_WERROR)
  target_compile_options(hatring_flags INTERFACE -Werror)
endif()
if(HATRING_FUZZ)
  set(HATRING_SANITIZE ON)
  target_compile_options(hatring_flags INTERFACE -fsanitize=fuzzer-no-link)
endif()
if(HATRING_SANITIZE)
  target_compile_options(hatring_flags INTERFACE -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(hatring_flags INTERFACE -fsanitize=address,undefined)
endif()

# hatring_room(NAME SOURCES a.cpp ... ROOMS models ... LIBS Eigen3::Eigen ...)
# One static library per room; ROOMS are the rooms below it.
function(hatring_room name)
  cmake_parse_arguments(ARG "" "" "SOURCES;ROOMS;LIBS" ${ARGN})
  add_library(hatring_${name} STATIC ${ARG_SOURCES})
  add_library(hatring::${name} ALIAS hatring_${name})
  target_link_libraries(hatring_${name} PUBLIC ${ARG_LIBS} PRIVATE $<BUILD_INTERFACE:hatring_flags>)
  target_include_directories(hatring_${name} PUBLIC $<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}>
                                                    $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}/hatring>)
  set_target_properties(hatring_${name} PROPERTIES EXPORT_NAME ${name})
  set_property(GLOBAL APPEND PROPERTY HATRING_ROOMS ${name})
  foreach(room IN LISTS ARG_ROOMS)
    target_link_libraries(hatring_${name} PUBLIC hatring_${room})
  endforeach()
endfunction()

# hatring_test(NAME SOURCES a.cpp ... LIBS hatring_models ...): one Catch2 executable, each case a ctest.
function(hatring_test name)
  cmake_parse_arguments(ARG "" "" "SOURCES;LIBS;ENVIRONMENT" ${ARGN})
  add_executable(${name} ${ARG_SOURCES})
  target_link_libraries(${name} PRIVATE hatring_catch_main hatring_flags ${ARG_LIBS})
  catch_discover_tests(${name} TEST_PREFIX "${name}: " WORKING_DIRECTORY ${PROJECT_SOURCE_DIR}
                       DISCOVERY_MODE PRE_TEST EXTRA_ARGS -w NoTests PROPERTIES ENVIRONMENT "${ARG_ENVIRONMENT}")
endfunction()
