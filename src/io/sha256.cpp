// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <openssl/evp.h>

#include <array>
#include <fstream>
#include <memory>
#include <vector>

#include "castplan/geo/error.hpp"
#include "castplan/io/load.hpp"

namespace castplan {
namespace {

using Context = std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)>;

Context begun() {
  Context context(EVP_MD_CTX_new(), &EVP_MD_CTX_free);
  if (!context || EVP_DigestInit_ex(context.get(), EVP_sha256(), nullptr) != 1) {
    throw std::runtime_error("SHA-256 is not to be had from OpenSSL");
  }
  return context;
}

std::string finished(const Context& context) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned int length = 0;
  EVP_DigestFinal_ex(context.get(), digest.data(), &length);
  std::string hex;
  for (unsigned int i = 0; i < length; ++i) hex += fmt::format("{:02x}", digest[i]);
  return hex;
}

}  // namespace

std::string sha256_of_bytes(std::string_view bytes) {
  const Context context = begun();
  EVP_DigestUpdate(context.get(), bytes.data(), bytes.size());
  return finished(context);
}

std::string sha256_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw InputError(fmt::format("{}: cannot be opened for reading", path));
  const Context context = begun();
  std::vector<char> buffer(std::size_t{1} << 16);
  while (in.read(buffer.data(), static_cast<std::streamsize>(buffer.size())) || in.gcount() > 0) {
    EVP_DigestUpdate(context.get(), buffer.data(), static_cast<std::size_t>(in.gcount()));
  }
  if (in.bad()) throw InputError(fmt::format("{}: cannot be read to its end", path));
  return finished(context);
}

}  // namespace castplan
