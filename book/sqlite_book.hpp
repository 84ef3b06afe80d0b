#pragma once
// The book in one SQLite file. One connection, one call at a time; what is written is on the disk when a call
// returns.

#include <mutex>

#include "book/book.hpp"
#include "book/store.hpp"

namespace strikewright::kept {

class SqliteBook final : public Book {
 public:
  explicit SqliteBook(std::unique_ptr<Store> store) : store_{std::move(store)} {}

  Result<Settings> settings() override;
  Result<void> keep(const Settings& settings) override;
  Result<std::vector<PupilLine>> pupils(const std::string& search, int most, int skip) override;
  Result<Pupil> pupil(const Id& id) override;
  Result<void> keep(const Pupil& pupil, const std::string& who) override;
  Result<Erased> erase_pupil(const Id& id) override;
  Result<std::vector<LessonLine>> lessons_of(const Id& pupil) override;
  Result<Lesson> lesson(const Id& id) override;
  Result<std::int64_t> keep(const Lesson& lesson, const std::string& who) override;
  Result<void> remove_lesson(const Id& id) override;
  Result<std::vector<KeptSwing>> swings_of(const Id& lesson) override;
  Result<std::int64_t> keep(const KeptSwing& swing, const std::string& who) override;
  Result<std::int64_t> keep_all(const std::vector<KeptSwing>& swings, const std::string& who) override;
  Result<std::int64_t> remove_swing(const Id& id, const std::string& who) override;
  Result<std::vector<SwingChange>> changes_of(const Id& swing) override;
  Result<void> keep(const KeptReading& reading) override;
  Result<std::optional<KeptReading>> reading_of(const Id& lesson) override;
  Result<std::vector<Given>> given_to(const Id& pupil) override;
  Result<Given> given(const Id& id) override;
  Result<void> keep(const Given& given) override;
  Result<void> remove_given(const Id& id) override;
  Result<std::vector<OwnExercise>> own_exercises() override;
  Result<void> keep(const OwnExercise& exercise) override;
  Result<void> remove_own_exercise(const Id& id) override;
  Result<std::string> export_json() override;
  Result<int> import_json(const std::string& text, const std::string& name) override;
  Result<void> backup(const std::string& file) override;
  Result<BookCheck> check() override;
  Result<std::vector<Device>> devices() override;
  Result<void> keep(const Device& device) override;
  Result<void> revoke_device(const Id& id) override;
  void on_change(std::function<void(const Changed&)> call) override;

  /// Cleans the file where an erasing before was kept from it; no fault when it cannot be done now either.
  void clean_if_owed();

 private:
  using Lock = std::lock_guard<std::mutex>;

  /// One reading call: alone, at one state of the book.
  template <class Work>
  auto reading(const Work& work) -> decltype(work()) {
    const Lock lock(mutex_);
    return guarded(store_->file(), [&] {
      SQLite::Transaction one(store_->database());
      return work();  // nothing was written: the end of the transaction is a rollback
    });
  }

  /// One writing call: all or nothing. `work` gets a list to which it adds what changed; told to others at
  /// the end.
  template <class Work>
  auto writing(const Work& work) -> decltype(work(std::declval<std::vector<Changed>&>())) {
    std::vector<Changed> changes;
    std::function<void(const Changed&)> call;
    auto result = [&] {
      const Lock lock(mutex_);
      call = call_;
      return guarded(store_->file(), [&] {
        SQLite::Transaction one(store_->database(), SQLite::TransactionBehavior::IMMEDIATE);
        auto done = work(changes);
        if (done) one.commit();
        return done;
      });
    }();
    if (!result || !call) return result;
    for (const Changed& change : changes) call(change);
    return result;
  }

  std::mutex mutex_;
  std::unique_ptr<Store> store_;
  std::function<void(const Changed&)> call_;
};

}  // namespace strikewright::kept
