# Build step of Report.cmake: cmake -DNODE= -DNPM= -DSOURCE_DIR= -DWORK_DIR= -DTEMPLATE= -P ReportBundle.cmake
file(MAKE_DIRECTORY "${WORK_DIR}")
file(REMOVE_RECURSE "${WORK_DIR}/src")
file(COPY "${SOURCE_DIR}/src" "${SOURCE_DIR}/package.json" "${SOURCE_DIR}/package-lock.json" "${SOURCE_DIR}/.npmrc"
          "${SOURCE_DIR}/tsconfig.json" "${SOURCE_DIR}/bundle.mjs" DESTINATION "${WORK_DIR}")

# Packages are installed again only when the lock file has changed.
set(stamp "${WORK_DIR}/installed")
file(SHA256 "${SOURCE_DIR}/package-lock.json" wanted)
set(installed "")
if(EXISTS "${stamp}")
  file(READ "${stamp}" installed)
endif()
if(NOT installed STREQUAL wanted)
  execute_process(COMMAND "${NPM}" ci --ignore-scripts --no-audit --no-fund WORKING_DIRECTORY "${WORK_DIR}"
                  RESULT_VARIABLE failed OUTPUT_VARIABLE output ERROR_VARIABLE output)
  if(failed)
    message(WARNING "npm could not install the packages of the report page, which is left out of this build "
                    "(configure again to retry):\n${output}")
    configure_file("${SOURCE_DIR}/page_left_out.cpp.in" "${TEMPLATE}" COPYONLY)
    file(TOUCH "${WORK_DIR}/left_out" "${TEMPLATE}")
    return()
  endif()
  file(WRITE "${stamp}" "${wanted}")
endif()

execute_process(COMMAND "${NODE}" bundle.mjs "${TEMPLATE}" WORKING_DIRECTORY "${WORK_DIR}" RESULT_VARIABLE failed)
if(failed)
  message(FATAL_ERROR "the report page does not bundle")
endif()
