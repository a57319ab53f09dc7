# SPDX-FileCopyrightText: 2026 The castplan authors
# SPDX-License-Identifier: Apache-2.0
# Installs the build to a folder of its own, then configures, builds and runs a project that knows only that folder.
# -DBUILD= build folder, -DSOURCE= tests/consumer, -DWORK= scratch folder, -DCOMPILER= the C++ compiler
file(REMOVE_RECURSE ${WORK})
file(MAKE_DIRECTORY ${WORK})

function(run)
  execute_process(COMMAND ${ARGN} RESULT_VARIABLE result OUTPUT_VARIABLE text ERROR_VARIABLE text)
  if(result)
    message(FATAL_ERROR "${ARGN}\nended with ${result}:\n${text}")
  endif()
  set(output "${text}" PARENT_SCOPE)
endfunction()

run(${CMAKE_COMMAND} --install ${BUILD} --prefix ${WORK}/prefix)
run(${CMAKE_COMMAND} -S ${SOURCE} -B ${WORK}/build -G Ninja -DCMAKE_CXX_COMPILER=${COMPILER}
    -DCMAKE_PREFIX_PATH=${WORK}/prefix -DCMAKE_FIND_USE_PACKAGE_REGISTRY=OFF)
run(${CMAKE_COMMAND} --build ${WORK}/build)
run(${WORK}/build/consumer)
message("${output}")

# a bowl of 12 m and radius 200 m: pi r^2 = 125664 m2; cells of 25 m2 along a rim of 1257 m allow 1 %
if(NOT output MATCHES "max_depth_m 12\\.00\narea_m2 ([0-9]+)\nbodies 1\n")
  message(FATAL_ERROR "expected max_depth_m 12.00 and one body of water")
endif()
if(CMAKE_MATCH_1 LESS 124407 OR CMAKE_MATCH_1 GREATER 126920)
  message(FATAL_ERROR "expected an area of 125664 m2 within 1 %, found ${CMAKE_MATCH_1}")
endif()

# the program is installed too and runs
run(${WORK}/prefix/bin/castplan --version)
message("${output}")

# and so are the schemas of what it prints
foreach(name summary scout grid inspect)
  if(NOT EXISTS ${WORK}/prefix/share/castplan/schema/${name}.schema.json)
    message(FATAL_ERROR "share/castplan/schema/${name}.schema.json is not installed")
  endif()
endforeach()
