#pragma once
// From Beast's messages to Asked and Reply, and back. Seen by listen.cpp and by the fuzz target only.

#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>
#include <optional>
#include <string>

#include "serve/asked.hpp"

namespace strikewright {

/// What the message says; addresses are the connection's to fill in.
template <class Message>
Asked asked_from(const Message& message) {
  namespace http = boost::beast::http;
  const auto text = [](boost::beast::string_view view) { return std::string(view.data(), view.size()); };
  const auto header = [&](auto name) { return text(message[name]); };
  // A header that may stand once and stands twice could mean one thing here and another elsewhere: it means
  // nothing.
  const auto single = [&](http::field name) { return message.count(name) > 1 ? "twice" : header(name); };
  return {.method = text(message.method_string()),
          .target = text(message.target()),
          .body = message.body(),
          .host = single(http::field::host),
          .origin = single(http::field::origin),
          .site = header("Sec-Fetch-Site"),
          .content_type = single(http::field::content_type),
          .cookie = header(http::field::cookie),
          .if_none_match = header(http::field::if_none_match)};
}

inline boost::beast::http::response<boost::beast::http::string_body> message_of(Reply reply, bool stays) {
  namespace http = boost::beast::http;
  http::response<http::string_body> message{static_cast<http::status>(reply.status), 11};
  for (const auto& [name, value] : reply.headers) message.insert(name, value);
  if (!reply.type.empty()) message.set(http::field::content_type, reply.type);
  message.keep_alive(stays);
  message.body() = std::move(reply.body);
  if (reply.status != 304) message.content_length(message.body().size());
  return message;
}

/// What to say of a message that could not be read; nothing where nobody is left to hear it.
inline std::optional<Reply> refusal_for(const boost::beast::error_code& error, bool too_slow) {
  namespace http = boost::beast::http;
  if (too_slow) return faulty(408, Fault{"the request", "a part of it only", "all of it within 10 s"});
  if (error == http::error::body_limit)
    return faulty(413, Fault{"the body", "more than 1 MB", "at most 1 MB"});
  if (error == http::error::header_limit || error == http::error::buffer_overflow)
    return faulty(431, Fault{"the headers", "more than 16 kB", "at most 16 kB"});
  if (error == http::error::end_of_stream || error == http::error::partial_message) return std::nullopt;
  if (error.category() == make_error_code(http::error::bad_target).category())
    return faulty(400, Fault{"the request", error.message(), "HTTP/1.1"});
  return std::nullopt;
}

}  // namespace strikewright
