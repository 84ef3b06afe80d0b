#include "serve/certificate.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <openssl/ec.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/rand.h>
#include <openssl/x509v3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <filesystem>
#include <memory>

namespace strikewright {
namespace {

template <auto Free>
struct Freed {
  template <class T>
  void operator()(T* thing) const {
    Free(thing);
  }
};
using Key = std::unique_ptr<EVP_PKEY, Freed<EVP_PKEY_free>>;
using X = std::unique_ptr<X509, Freed<X509_free>>;
using Bio = std::unique_ptr<BIO, Freed<BIO_free>>;

constexpr long kDay = 86'400, kLives = 800 * kDay;

std::string fingerprint_of(const X509& certificate) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> hash{};
  unsigned size = 0;
  X509_digest(&certificate, EVP_sha256(), hash.data(), &size);
  std::string out;
  for (unsigned k = 0; k < size; ++k) out += fmt::format("{}{:02X}", k == 0 ? "" : ":", hash[k]);
  return out;
}

/// nullptr where there is none that will do.
X usable(const std::string& certificate_file, const std::string& key_file) {
  const Bio certificate_bio{BIO_new_file(certificate_file.c_str(), "r")};
  const Bio key_bio{BIO_new_file(key_file.c_str(), "r")};
  if (!certificate_bio || !key_bio) return nullptr;
  X certificate{PEM_read_bio_X509(certificate_bio.get(), nullptr, nullptr, nullptr)};
  const Key key{PEM_read_bio_PrivateKey(key_bio.get(), nullptr, nullptr, nullptr)};
  if (!certificate || !key || X509_check_private_key(certificate.get(), key.get()) != 1) return nullptr;
  std::time_t tomorrow = std::time(nullptr) + kDay;
  return X509_cmp_time(X509_get0_notAfter(certificate.get()), &tomorrow) > 0 ? std::move(certificate)
                                                                             : nullptr;
}

bool add_extension(X509* certificate, int kind, const std::string& value) {
  X509_EXTENSION* extension = X509V3_EXT_conf_nid(nullptr, nullptr, kind, value.c_str());
  const bool added = extension != nullptr && X509_add_ext(certificate, extension, -1) == 1;
  X509_EXTENSION_free(extension);
  return added;
}

X made_with(EVP_PKEY* key, const std::vector<std::string>& names) {
  X out{X509_new()};
  if (!out || key == nullptr) return nullptr;
  X509_set_version(out.get(), 2);
  std::uint64_t serial = 0;
  RAND_bytes(reinterpret_cast<unsigned char*>(&serial), sizeof serial);
  ASN1_INTEGER_set_uint64(X509_get_serialNumber(out.get()), serial >> 1u);
  X509_gmtime_adj(X509_getm_notBefore(out.get()), -kDay);
  X509_gmtime_adj(X509_getm_notAfter(out.get()), kLives);
  X509_set_pubkey(out.get(), key);
  X509_NAME* name = X509_get_subject_name(out.get());
  X509_NAME_add_entry_by_txt(name, "CN", MBSTRING_ASC, reinterpret_cast<const unsigned char*>("Strikewright"),
                             -1, -1, 0);
  X509_set_issuer_name(out.get(), name);
  std::string also = "DNS:localhost,IP:127.0.0.1";
  for (const std::string& one : names) also += ",DNS:" + one;
  const bool good = add_extension(out.get(), NID_subject_alt_name, also) &&
                    add_extension(out.get(), NID_basic_constraints, "critical,CA:FALSE") &&
                    add_extension(out.get(), NID_ext_key_usage, "serverAuth");
  return good && X509_sign(out.get(), key, EVP_sha256()) > 0 ? std::move(out) : nullptr;
}

/// Into a file that only its owner may read, by way of another name: never half of one.
template <class Write>
bool written(const std::string& file, Write write) {
  const std::string other = file + ".new";
  ::unlink(other.c_str());
  const int handle = ::open(other.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, S_IRUSR | S_IWUSR);
  if (handle < 0) return false;
  const Bio bio{BIO_new_fd(handle, BIO_NOCLOSE)};
  const bool done = bio && write(bio.get()) == 1 && ::fsync(handle) == 0;
  ::close(handle);
  std::error_code error;
  if (done) std::filesystem::rename(other, file, error);
  if (!done || error) ::unlink(other.c_str());
  return done && !error;
}

}  // namespace

Result<Certificate> certificate_beside(const std::string& book, const std::vector<std::string>& names) {
  Certificate out{.key_file = book + ".key.pem", .certificate_file = book + ".cert.pem", .fingerprint = {}};
  X certificate = usable(out.certificate_file, out.key_file);
  if (!certificate) {
    const Key key{EVP_EC_gen("P-256")};
    certificate = made_with(key.get(), names);
    if (!certificate) return unexpected(Fault{out.certificate_file, "no way to make it", "a certificate"});
    const bool kept =
        written(out.key_file,
                [&](BIO* to) {
                  return PEM_write_bio_PrivateKey(to, key.get(), nullptr, nullptr, 0, nullptr, nullptr);
                }) &&
        written(out.certificate_file, [&](BIO* to) { return PEM_write_bio_X509(to, certificate.get()); });
    if (!kept)
      return unexpected(Fault{out.key_file, "no way to write it", "a folder that can be written to"});
  }
  out.fingerprint = fingerprint_of(*certificate);
  return out;
}

}  // namespace strikewright
