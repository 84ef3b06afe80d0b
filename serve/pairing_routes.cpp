// Pairing a device, and the devices that are paired.

#include <nlohmann/json.hpp>

#include "serve/doorman.hpp"
#include "serve/qr.hpp"
#include "serve/routes.hpp"
#include "verbs/json_door.hpp"

namespace strikewright {
namespace {

Reply pairing(Means& means) {
  if (!means.address.shared) return reply({{"shared", false}});
  const auto rows = qr_rows(means.address.url);
  if (!rows) return faulty(rows.error());
  const Pairing::Code code = means.pairing.code();
  return reply({{"shared", true},
                {"url", means.address.url},
                {"code", code.digits},
                {"code_ends_at", iso_of(code.ends_at)},
                {"fingerprint", means.address.fingerprint},
                {"qr", *rows}});
}

Reply pair(Means& means, const Asked& asked) {
  const Result<Document> document = document_of(asked);
  if (!document) return faulty(document.error());
  std::optional<Fault> fault;
  JsonDoor door{*document, "", fault};
  const std::string code = door.text("code"), name = door.text("name");
  door.done();
  if (fault) return faulty(*fault);
  if (!means.address.shared || asked.at_home)
    return faulty(400, Fault{"this device", "the coach's own machine",
                             "another one, and a server started with --share"});
  Pairing::Paired paired;
  if (const auto refusal = means.pairing.pair(code, name, asked.from, paired)) {
    Reply out = faulty(refusal->status, refusal->fault);
    if (refusal->wait.count() > 0)
      out.headers.emplace_back("Retry-After", std::to_string(refusal->wait.count()));
    return out;
  }
  Reply out = reply(Document::object());
  out.headers.emplace_back("Set-Cookie", cookie_with(paired.token));
  return out;
}

Reply devices(Means& means, const Asked& asked) {
  const auto all = means.book.devices();
  if (!all) return faulty(all.error());
  Document out{{"devices", Document::array()}};
  for (const Book::Device& device : *all) {
    if (!asked.at_home && device.id != asked.device) continue;
    out["devices"].push_back({{"id", device.id},
                              {"name", device.name},
                              {"paired_at", device.paired_at},
                              {"seen_at", device.seen_at},
                              {"this", device.id == asked.device}});
  }
  return reply(out);
}

Reply revoke(Means& means, const Asked& asked) {
  const Id& id = asked.named.at("id");
  if (!asked.at_home && id != asked.device)
    return faulty(403, Fault{"this device", "another device's name", "its own, or the coach's own machine"});
  if (const Result<void> gone = means.book.revoke_device(id); !gone) return faulty(gone.error());
  means.watchers.end(id);
  Reply out = reply(Document::object());
  if (id == asked.device) out.headers.emplace_back("Set-Cookie", cookie_away());
  return out;
}

}  // namespace

std::vector<Route> pairing_routes() {
  return {
      {.method = "GET",
       .pattern = "/api/pairing",
       .says = "what the coach's machine shows to a new device",
       .gives = "Pairing",
       .whom = For::this_machine,
       .handle = [](Means& m, const Asked&) { return pairing(m); }},
      {.method = "POST",
       .pattern = "/api/pairing",
       .says = "pairs this device: the code for a token in a cookie",
       .takes = "PairAsked",
       .gives = "Nothing",
       .whom = For::anybody,
       .handle = pair},
      {.method = "GET",
       .pattern = "/api/devices",
       .says = "paired devices; a device sees itself only",
       .gives = "Devices",
       .handle = devices},
      {.method = "DELETE",
       .pattern = "/api/devices/{id}",
       .says = "lets a device in no longer",
       .gives = "Nothing",
       .handle = revoke},
  };
}

}  // namespace strikewright
