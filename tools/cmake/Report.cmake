# The report page: TypeScript bundled into one HTML template, embedded in a generated C++ source.
# Nothing is written to the source tree: packages and bundle live in ${HATRING_REPORT_DIR}, in the build folder.
find_program(HATRING_NODE node)
find_program(HATRING_NPM npm)
set(HATRING_REPORT_DIR "${PROJECT_BINARY_DIR}/tools/report/npm" CACHE INTERNAL "packages and bundle of the report page")

# hatring_report_template(VAR): VAR becomes the name of a source defining kPageHead and kPageTail.
# Without node and npm, or with the npm packages out of reach, both are empty and the program has no report.
function(hatring_report_template out)
  set(source_dir "${PROJECT_SOURCE_DIR}/tools/report")
  set(template "${HATRING_REPORT_DIR}/page_template.cpp")
  if(NOT HATRING_NODE OR NOT HATRING_NPM)
    message(WARNING "node and npm not found: the report page is left out of this build "
                    "(install the packages nodejs and npm, then configure again)")
    configure_file("${source_dir}/page_left_out.cpp.in" "${template}" COPYONLY)
    set(${out} "${template}" PARENT_SCOPE)
    return()
  endif()
  # A build that could not reach the packages tries again after the next configure.
  if(EXISTS "${HATRING_REPORT_DIR}/left_out")
    file(REMOVE "${template}" "${HATRING_REPORT_DIR}/left_out")
  endif()
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS "${source_dir}/src/*")
  add_custom_command(
    OUTPUT "${template}"
    COMMAND "${CMAKE_COMMAND}" "-DNODE=${HATRING_NODE}" "-DNPM=${HATRING_NPM}" "-DSOURCE_DIR=${source_dir}"
            "-DWORK_DIR=${HATRING_REPORT_DIR}" "-DTEMPLATE=${template}"
            -P "${PROJECT_SOURCE_DIR}/tools/cmake/ReportBundle.cmake"
    DEPENDS ${sources} "${source_dir}/package.json" "${source_dir}/package-lock.json" "${source_dir}/.npmrc"
            "${source_dir}/tsconfig.json" "${source_dir}/bundle.mjs" "${source_dir}/page_left_out.cpp.in"
            "${PROJECT_SOURCE_DIR}/tools/cmake/ReportBundle.cmake"
    COMMENT "Bundling the report page"
    VERBATIM)
  set(${out} "${template}" PARENT_SCOPE)
endfunction()
