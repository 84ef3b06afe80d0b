#pragma once
// The machine's own certificate: made at the first start that needs one, kept beside the book.

#include <string>
#include <vector>

#include "quantity/fault.hpp"

namespace strikewright {

struct Certificate {
  std::string key_file, certificate_file;  ///< BOOK.key.pem, BOOK.cert.pem; only their owner may read them
  std::string fingerprint;                 ///< SHA-256, "AB:CD:..."
};

/// The one that is there, or a new one where there is none or where it ends within a day.
/// @param names  of this machine; without addresses, which change
Result<Certificate> certificate_beside(const std::string& book, const std::vector<std::string>& names);

}  // namespace strikewright
