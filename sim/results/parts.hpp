#pragma once
// Finished work of a study under way, kept beside its output so that no end of the program, however rude, loses it.
//
//   runs.h5                what the study yields, there only when it is whole
//   runs.h5.d/lock         held while a program works on it; the system lets go of it when the program dies
//   runs.h5.d/NAME.part    one finished piece of work: mark of the study, name, content, seal

#include <cstdint>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace rackwright::results {

/// Which share of a study a run takes: number 1 .. of.
struct Shard {
  std::uint32_t number = 1, of = 1;
  [[nodiscard]] bool whole() const { return of == 1; }
};

/// What to do with parts an earlier run left.
enum class Earlier {
  refuse,  ///< they may be dear: let the user say
  keep,    ///< go on with them
  discard
};

/// 64 bits that two studies share only if they would give the same results: of the text of all that decides them.
std::uint64_t study_mark(std::string_view text);

/// The folder of parts of one output. Members throw WriteFault. write() may be called from several threads.
class Parts {
 public:
  /// Makes and locks the folder. Refuses an output that is there already unless `replace`, one that another run works
  /// on, parts of another study, and a folder that cannot be written.
  Parts(const std::string& output, std::uint64_t mark, Earlier earlier, bool replace, Shard shard = {});
  /// Parts in a folder that another process of the same study holds: to be written and read only.
  static Parts of_another(const std::string& output, std::uint64_t mark) { return Parts(output, mark); }
  /// Lets go of the lock; a folder without parts is removed.
  ~Parts();
  Parts(const Parts&) = delete;
  Parts& operator=(const Parts&) = delete;

  [[nodiscard]] const std::string& output() const { return output_; }
  /// Whether an output that is there may be replaced: as asked for when this was made.
  [[nodiscard]] bool replace() const { return replace_; }
  [[nodiscard]] const std::string& folder() const { return folder_; }
  /// A name in the folder under which the output may be written before it is finished.
  [[nodiscard]] std::string temporary() const;

  /// Names of the parts there, in order.
  [[nodiscard]] std::vector<std::string> names() const;
  [[nodiscard]] bool has(const std::string& name) const;
  [[nodiscard]] bool empty() const;
  /// Looks again: other shards may have added some.
  void look_again();
  /// The content of a part; nothing when it is absent or damaged. A damaged one is removed: its work is done again.
  std::optional<std::string> read(const std::string& name);
  /// Puts a part in place: once this returns, it outlives any end of the program.
  void write(const std::string& name, std::string_view content);
  void remove(const std::string& name);

  /// Waits until no other shard works here and takes all for itself. False when another shard has finished the study.
  bool take_all();
  /// The study is whole: removes the parts and the folder.
  void finish();

 private:
  Parts(const std::string& output, std::uint64_t mark)
      : output_(output), folder_(output + ".d"), mark_(mark), finished_(true) {}
  [[nodiscard]] std::string path_of(const std::string& name) const { return folder_ + "/" + name; }
  [[nodiscard]] std::string part_of(const std::string& name) const;
  void lock(Shard shard);
  void clean();

  std::string output_, folder_;
  std::uint64_t mark_;
  int lock_ = -1, shard_lock_ = -1;
  std::string shard_lock_path_{};
  mutable std::mutex mutex_{};
  std::set<std::string> names_{};
  bool alone_ = true;
  bool replace_ = false;
  bool finished_ = false;  ///< the folder is no longer, or never was, for this object to remove
};

/// Lets go of what a finished study left of its folder, if any.
void remove_parts(const std::string& output);

}  // namespace rackwright::results
