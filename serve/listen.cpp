// The only source that sees Boost.Beast: connections, limits, threads.

#include "serve/listen.hpp"

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/ip/v6_only.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/ssl.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>
#include <deque>
#include <map>
#include <optional>

#include "serve/wire.hpp"

namespace strikewright {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using tcp = asio::ip::tcp;
using Error = beast::error_code;

/// What all connections share. Everything but the two pools happens on one thread.
struct Yard {
  Limits limits;
  Desk* desk;
  asio::ssl::context* tls;  ///< null = not shared
  asio::io_context& io;
  Yard(const Limits& most, Desk& for_desk, asio::ssl::context* with, asio::io_context& on)
      : limits{most}, desk{&for_desk}, tls{with}, io{on} {}
  asio::thread_pool quick{1}, slow{2};
  std::map<std::string, std::size_t> open{};  ///< connections by address
  std::size_t open_in_all = 0;
};

/// An IPv4 address that came by way of IPv6 is an IPv4 address.
asio::ip::address plain(const asio::ip::address& address) {
  if (address.is_v6() && address.to_v6().is_v4_mapped())
    return asio::ip::make_address_v4(asio::ip::v4_mapped, address.to_v6());
  return address;
}

class Connection : public std::enable_shared_from_this<Connection> {
 public:
  Connection(tcp::socket socket, std::shared_ptr<Yard> yard)
      : yard_{std::move(yard)}, stream_{std::move(socket)}, buffer_{yard_->limits.headers + (64u << 10)} {
    Error none;
    const auto there = plain(stream_.socket().remote_endpoint(none).address());
    at_home_ = !none && there.is_loopback();
    from_ = there.to_string();
    here_ = plain(stream_.socket().local_endpoint(none).address()).to_string();
    ++yard_->open[from_];
    ++yard_->open_in_all;
  }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;
  ~Connection() {
    leave_watchers();
    --yard_->open_in_all;
    if (--yard_->open[from_] == 0) yard_->open.erase(from_);
  }

  void start() {
    constexpr std::size_t kForThisMachine = 8;
    const Limits& most = yard_->limits;
    const bool full = yard_->open_in_all > most.connections - (at_home_ ? 0 : kForThisMachine);
    if (full || (!at_home_ && yard_->open[from_] > most.of_one)) return;  // closed with the last owner
    if (yard_->tls == nullptr) return wait();
    stream_.expires_after(most.slow);
    beast::async_detect_ssl(stream_, buffer_, [self = shared_from_this()](Error error, bool is_tls) {
      if (error) return;
      is_tls ? self->shake_hands() : self->wait();
    });
  }

 private:
  /// Calls with the encrypted stream where there is one.
  template <class Use>
  void with_stream(Use use) {
    if (tls_)
      use(*tls_);
    else
      use(stream_);
  }

  void shake_hands() {
    tls_.emplace(stream_, *yard_->tls);
    stream_.expires_after(yard_->limits.slow);
    tls_->async_handshake(asio::ssl::stream_base::server, buffer_.data(),
                          [self = shared_from_this()](Error error, std::size_t used) {
                            if (error) return;
                            self->buffer_.consume(used);
                            self->wait();
                          });
  }

  /// Until the first byte of a question comes, there is no hurry.
  void wait() {
    if (buffer_.size() > 0) return read_headers();
    stream_.expires_after(yard_->limits.idle);
    with_stream([this](auto& stream) {
      stream.async_read_some(buffer_.prepare(4096),
                             [self = shared_from_this()](Error error, std::size_t count) {
                               if (error) return;
                               self->buffer_.commit(count);
                               self->read_headers();
                             });
    });
  }

  /// The stream's own time limit would close it, and nobody would be told why.
  void hurry() {
    stream_.expires_never();
    timer_.emplace(yard_->io, yard_->limits.slow);
    timer_->async_wait([weak = weak_from_this()](Error error) {
      const auto self = weak.lock();
      if (error || !self) return;
      self->too_slow_ = true;
      self->stream_.cancel();
    });
  }

  void read_headers() {
    parser_.emplace();
    parser_->header_limit(static_cast<std::uint32_t>(yard_->limits.headers));
    parser_->body_limit(yard_->limits.body);
    hurry();
    with_stream([this](auto& stream) {
      http::async_read_header(stream, buffer_, *parser_,
                              [self = shared_from_this()](Error error, std::size_t) {
                                error ? self->refuse(error) : self->read_body();
                              });
    });
  }

  void read_body() {
    hurry();
    if (beast::iequals(parser_->get()[http::field::expect], "100-continue") && !parser_->is_done()) {
      static const std::string go_on = "HTTP/1.1 100 Continue\r\n\r\n";
      with_stream([this](auto& stream) {
        asio::async_write(stream, asio::buffer(go_on), [self = shared_from_this()](Error error, std::size_t) {
          if (!error) self->read_rest();
        });
      });
      return;
    }
    read_rest();
  }

  void read_rest() {
    with_stream([this](auto& stream) {
      http::async_read(stream, buffer_, *parser_, [self = shared_from_this()](Error error, std::size_t) {
        error ? self->refuse(error) : self->ask();
      });
    });
  }

  /// What could not be read is answered where that still helps, and the connection ends.
  void refuse(Error error) {
    timer_.reset();
    std::optional<Reply> refusal = refusal_for(error, too_slow_);
    if (!refusal) return;
    Reply reply = std::move(*refusal);
    add_common_headers(Asked{.method = {}, .target = "/api"}, reply);
    stays_ = false;
    send(std::move(reply), false);
  }

  void ask() {
    timer_.reset();
    const auto& message = parser_->get();
    stays_ = message.keep_alive();
    Asked asked = asked_from(message);
    asked.from = from_;
    asked.here = here_;
    asked.at_home = at_home_;
    asked.secure = tls_.has_value();
    stream_.expires_never();
    const bool head = asked.method == "HEAD";
    asio::thread_pool& pool = yard_->desk->is_slow(asked) ? yard_->slow : yard_->quick;
    asio::post(pool, [self = shared_from_this(), asked = std::move(asked), head]() mutable {
      Yard& yard = *self->yard_;
      Reply reply = yard.desk->answer(std::move(asked));
      asio::post(yard.io, [self = std::move(self), reply = std::move(reply), head]() mutable {
        Connection& connection = *self;
        connection.answered(std::move(reply), head);
      });
    });
  }

  void answered(Reply reply, bool head) {
    if (reply.streams) return stream_changes(reply);
    send(std::move(reply), head);
  }

  void send(Reply reply, bool head) {
    message_ = message_of(std::move(reply), stays_);
    serializer_.emplace(*message_);
    stream_.expires_after(yard_->limits.write);
    const auto done = [self = shared_from_this()](Error error, std::size_t) {
      if (error) return;
      self->stays_ ? self->wait() : self->close();
    };
    with_stream([&](auto& stream) {
      if (head)
        http::async_write_header(stream, *serializer_, done);
      else
        http::async_write(stream, *serializer_, done);
    });
  }

  /// A body that was not read would make the kernel take back an answer that is still on its way: what comes
  /// is thrown away for a while.
  void close() {
    Error none;
    if (!tls_) {
      stream_.socket().shutdown(tcp::socket::shutdown_send, none);
      stream_.expires_after(std::min(yard_->limits.slow, std::chrono::milliseconds(2000)));
      return throw_away();
    }
    stream_.expires_after(yard_->limits.slow);
    tls_->async_shutdown([self = shared_from_this()](Error) {});
  }

  void throw_away() {
    buffer_.clear();
    constexpr std::size_t kPiece = 16u << 10, kMost = 4u << 20;
    stream_.async_read_some(buffer_.prepare(kPiece),
                            [self = shared_from_this()](Error error, std::size_t count) {
                              self->thrown_away_ += count;
                              if (!error && self->thrown_away_ < kMost) self->throw_away();
                            });
  }

  // The stream of changes: headers without an end, then events as they come.

  void stream_changes(const Reply& reply) {
    std::string head = "HTTP/1.1 200 OK\r\nConnection: close\r\nContent-Type: " + reply.type + "\r\n";
    for (const auto& [name, value] : reply.headers)
      head.append(name).append(": ").append(value).append("\r\n");
    queue_.push_back(head + "\r\n: quiet\n\n");
    const std::weak_ptr<Connection> weak = weak_from_this();
    const auto on_thread = [weak, &io = yard_->io](auto work) {
      asio::post(io, [weak, work = std::move(work)] {
        if (const auto self = weak.lock()) work(*self);
      });
    };
    const auto tell = [on_thread](const std::string& event) {
      on_thread([event](Connection& self) { self.queue(event); });
    };
    const auto end = [on_thread] { on_thread([](Connection& self) { self.cut(); }); };
    watching_ = yard_->desk->means().watchers.join({.device = reply.device, .tell = tell, .end = end});
    listen_for_the_end();
    write_next();
    beat();
  }

  void queue(const std::string& event) {
    constexpr std::size_t kBehind = 256;
    if (queue_.size() > kBehind) return cut();  // a screen that does not keep up asks anew when it comes back
    queue_.push_back(event);
    if (queue_.size() == 1) write_next();
  }

  void write_next() {
    stream_.expires_after(yard_->limits.write);
    with_stream([this](auto& stream) {
      asio::async_write(stream, asio::buffer(queue_.front()),
                        [self = shared_from_this()](Error error, std::size_t) {
                          if (error) return self->cut();
                          self->queue_.pop_front();
                          if (!self->queue_.empty()) self->write_next();
                        });
    });
  }

  void beat() {
    timer_.emplace(yard_->io, yard_->limits.beat);
    timer_->async_wait([weak = weak_from_this()](Error error) {
      const auto self = weak.lock();
      if (error || !self) return;
      self->queue(": quiet\n\n");
      self->beat();
    });
  }

  /// Nothing more is to come; what comes is the end.
  void listen_for_the_end() {
    buffer_.clear();
    stream_.expires_never();
    with_stream([this](auto& stream) {
      stream.async_read_some(buffer_.prepare(1),
                             [self = shared_from_this()](Error, std::size_t) { self->cut(); });
    });
  }

  void cut() {
    leave_watchers();
    timer_.reset();
    Error none;
    stream_.socket().shutdown(tcp::socket::shutdown_both, none);
    stream_.close();
  }

  void leave_watchers() {
    if (watching_ != 0) yard_->desk->means().watchers.leave(watching_);
    watching_ = 0;
  }

  std::shared_ptr<Yard> yard_;
  beast::tcp_stream stream_;
  std::optional<asio::ssl::stream<beast::tcp_stream&>> tls_{};
  beast::flat_buffer buffer_;
  std::optional<http::request_parser<http::string_body>> parser_{};
  std::optional<http::response<http::string_body>> message_{};
  std::optional<http::response_serializer<http::string_body>> serializer_{};
  std::string from_, here_;
  bool at_home_ = false, stays_ = true, too_slow_ = false;
  std::size_t thrown_away_ = 0;
  std::deque<std::string> queue_{};
  std::optional<asio::steady_timer> timer_{};
  int watching_ = 0;
};

class Beast final : public Listener {
 public:
  explicit Beast(const ListenOptions& options) : share_{options.share}, limits_{options.limits} {}

  std::optional<Fault> begin(const ListenOptions& options) {
    if (share_) {
      if (auto fault = use_certificate(options)) return fault;
    }
    Error error;
    const auto port = options.port;
    const tcp::endpoint home{asio::ip::address_v4::loopback(), port};
    // Both kinds of address on one socket where the machine has them; else the older kind alone.
    if (!share_)
      open_at(home, error);
    else if (open_at({tcp::v6(), port}, error); error && error != asio::error::address_in_use)
      open_at({tcp::v4(), port}, error);
    if (!error) return std::nullopt;
    const bool taken = error == asio::error::address_in_use;
    return Fault{"--port",
                 std::to_string(port) + (taken ? ", which another program has" : ": " + error.message()),
                 "a port that is free, or 0 for any"};
  }

  [[nodiscard]] unsigned short port() const override { return acceptor_.local_endpoint().port(); }

  void run(Desk& desk, bool signals) override {
    yard_ = std::make_shared<Yard>(limits_, desk, share_ ? &tls_ : nullptr, io_);
    asio::signal_set set{io_};
    if (signals) {
      set.add(SIGINT);
      set.add(SIGTERM);
      set.async_wait([this](Error error, int) {
        if (!error) io_.stop();
      });
    }
    accept();
    tick();
    io_.run();
    Error none;
    acceptor_.close(none);
    // Whoever asked last gets no answer, but what is being written is written.
    yard_->quick.join();
    yard_->slow.join();
  }

  void stop() override { io_.stop(); }

 private:
  std::optional<Fault> use_certificate(const ListenOptions& options) {
    Error error;
    tls_.set_options(asio::ssl::context::default_workarounds | asio::ssl::context::no_tlsv1 |
                     asio::ssl::context::no_tlsv1_1 | asio::ssl::context::no_compression);
    tls_.use_certificate_chain_file(options.certificate_file, error);
    if (error) return Fault{options.certificate_file, error.message(), "a certificate (PEM)"};
    tls_.use_private_key_file(options.key_file, asio::ssl::context::pem, error);
    if (error) return Fault{options.key_file, error.message(), "the certificate's key (PEM)"};
    return std::nullopt;
  }

  void open_at(const tcp::endpoint& at, Error& error) {
    Error none;
    acceptor_.close(none);
    acceptor_.open(at.protocol(), error);
    if (error) return;
    acceptor_.set_option(asio::socket_base::reuse_address(true), error);
    if (at.protocol() == tcp::v6()) acceptor_.set_option(asio::ip::v6_only(false), error);
    if (!error) acceptor_.bind(at, error);
    if (!error) acceptor_.listen(asio::socket_base::max_listen_connections, error);
  }

  void accept() {
    acceptor_.async_accept([this](Error error, tcp::socket socket) {
      if (error == asio::error::operation_aborted) return;
      if (!error) {
        socket.set_option(tcp::no_delay(true), error);
        std::make_shared<Connection>(std::move(socket), yard_)->start();
        return accept();
      }
      // No more files to be had, most likely: a pause, not a loop.
      pause_.expires_after(std::chrono::milliseconds(100));
      pause_.async_wait([this](Error ended) {
        if (!ended) accept();
      });
    });
  }

  /// The code on the terminal is renewed in time.
  void tick() {
    if (!share_) return;
    yard_->desk->means().pairing.code();
    tick_.expires_after(limits_.beat);
    tick_.async_wait([this](Error error) {
      if (!error) tick();
    });
  }

  bool share_;
  Limits limits_;
  asio::ssl::context tls_{asio::ssl::context::tls_server};
  std::shared_ptr<Yard> yard_{};  ///< outlives the connections that the next line still holds
  asio::io_context io_{1};
  tcp::acceptor acceptor_{io_};
  asio::steady_timer pause_{io_}, tick_{io_};
};

}  // namespace

Result<std::unique_ptr<Listener>> Listener::open(const ListenOptions& options) {
  auto listener = std::make_unique<Beast>(options);
  if (auto fault = listener->begin(options)) return unexpected(*fault);
  return std::unique_ptr<Listener>(std::move(listener));
}

}  // namespace strikewright
