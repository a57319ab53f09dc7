// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <cpl_vsi.h>
#include <gdal_priv.h>

#include <catch2/catch.hpp>

#include "castplan/geo/error.hpp"
#include "castplan/io/load.hpp"
#include "castplan/io/picture.hpp"
#include "support/programs.hpp"

using namespace castplan;

TEST_CASE("SHA-256 of the published vectors") {
  // FIPS 180-2, appendix B.1 to B.3; the empty message: NIST CAVP SHA256ShortMsg.rsp, Len = 0
  const programs::Scratch scratch;
  CHECK(sha256_of(scratch.write("a", "abc")) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256_of(scratch.write("b", "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")) ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(sha256_of(scratch.write("c", std::string(1000000, 'a'))) ==
        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
  CHECK(sha256_of(scratch.write("d", "")) == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  CHECK_THROWS_AS(sha256_of(scratch.path("missing")), InputError);
}

TEST_CASE("a picture comes back from its PNG as it went in") {
  const int width = 7;
  const int height = 5;
  std::vector<std::uint8_t> pixels;
  for (int i = 0; i < 4 * width * height; ++i) pixels.push_back(static_cast<std::uint8_t>((i * 37) % 256));
  const std::string bytes = png(pixels, width, height);
  CHECK(bytes == png(pixels, width, height));
  CHECK(bytes.substr(1, 3) == "PNG");

  const programs::Scratch scratch;
  const std::string path = scratch.write("p.png", bytes);
  GDALAllRegister();
  const std::unique_ptr<GDALDataset> back(GDALDataset::Open(path.c_str(), GDAL_OF_RASTER));
  REQUIRE(back);
  REQUIRE(back->GetRasterCount() == 4);
  REQUIRE(back->GetRasterXSize() == width);
  REQUIRE(back->GetRasterYSize() == height);
  std::vector<std::uint8_t> read(pixels.size());
  REQUIRE(back->RasterIO(GF_Read, 0, 0, width, height, read.data(), width, height, GDT_Byte, 4, nullptr, 4, 4 * width,
                         1, nullptr) == CE_None);
  CHECK(read == pixels);
}
