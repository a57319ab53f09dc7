# SPDX-FileCopyrightText: 2026 The castplan authors
# SPDX-License-Identifier: Apache-2.0
# Configuring without tests needs no Catch2; with tests and no Catch2 it fails, which shows that the switch works.
# -DSOURCE= the repository, -DWORK= scratch folder, -DCOMPILER= the C++ compiler
file(REMOVE_RECURSE ${WORK})
set(configure ${CMAKE_COMMAND} -S ${SOURCE} -G Ninja -DCMAKE_CXX_COMPILER=${COMPILER}
              -DCMAKE_DISABLE_FIND_PACKAGE_Catch2=ON)
execute_process(COMMAND ${configure} -B ${WORK}/without -DBUILD_TESTING=OFF RESULT_VARIABLE result
                OUTPUT_VARIABLE text ERROR_VARIABLE text)
if(result)
  message(FATAL_ERROR "configuring with BUILD_TESTING=OFF and no Catch2 failed:\n${text}")
endif()
execute_process(COMMAND ${configure} -B ${WORK}/with -DBUILD_TESTING=ON RESULT_VARIABLE result
                OUTPUT_VARIABLE text ERROR_VARIABLE text)
if(NOT result)
  message(FATAL_ERROR "Catch2 was switched off and BUILD_TESTING=ON still configured: this test proves nothing")
endif()
