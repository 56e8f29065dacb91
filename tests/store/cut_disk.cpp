#include "cut_disk.h"

#include <sqlite3.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <cstring>
#include <map>
#include <new>
#include <random>
#include <string>
#include <vector>

namespace maslin {
namespace {

/// What a place in a file held before an unsynced write. size_before tells a longer file.
struct Undo {
  sqlite3_int64 offset = 0;
  std::vector<char> before;
  sqlite3_int64 size_before = 0;
};

struct Disk {
  sqlite3_vfs* real = nullptr;
  sqlite3_vfs self{};
  std::map<std::string, std::vector<Undo>> unsynced;
  bool armed = false;
  bool gone = false;
  std::uint32_t writes_left = 0;
  std::mt19937_64 chance;
};

Disk& disk() {
  static Disk one;
  return one;
}

/// A file of ours; the machine's own lies right behind it.
struct File {
  sqlite3_file base;
  std::string* name;
  sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};
File* ours(sqlite3_file* file) {
  return reinterpret_cast<File*>(file);
}
sqlite3_file* real(sqlite3_file* file) {
  return ours(file)->real();
}

/// Counts an operation that changes the disk; false when the power is gone.
bool powered() {
  Disk& d = disk();
  if (d.gone) {
    return false;
  }
  if (d.armed && d.writes_left-- == 0) {
    d.gone = true;
    return false;
  }
  return true;
}

void remember(sqlite3_file* file, sqlite3_int64 offset, int bytes) {
  Undo undo;
  undo.offset = offset;
  real(file)->pMethods->xFileSize(real(file), &undo.size_before);
  const sqlite3_int64 there =
      std::max<sqlite3_int64>(0, std::min<sqlite3_int64>(bytes, undo.size_before - offset));
  undo.before.resize(static_cast<std::size_t>(there));
  if (there > 0) {
    real(file)->pMethods->xRead(real(file), undo.before.data(), static_cast<int>(there), offset);
  }
  disk().unsynced[*ours(file)->name].push_back(std::move(undo));
}

int close_file(sqlite3_file* file) {
  const int code = real(file)->pMethods->xClose(real(file));
  delete ours(file)->name;
  return code;
}
int read(sqlite3_file* file, void* to, int bytes, sqlite3_int64 offset) {
  return disk().gone ? SQLITE_IOERR_READ
                     : real(file)->pMethods->xRead(real(file), to, bytes, offset);
}
int write(sqlite3_file* file, const void* from, int bytes, sqlite3_int64 offset) {
  if (!powered()) {
    return SQLITE_IOERR_WRITE;
  }
  remember(file, offset, bytes);
  return real(file)->pMethods->xWrite(real(file), from, bytes, offset);
}
int cut_short(sqlite3_file* file, sqlite3_int64 size) {
  if (!powered()) {
    return SQLITE_IOERR_TRUNCATE;
  }
  sqlite3_int64 now = 0;
  real(file)->pMethods->xFileSize(real(file), &now);
  if (now > size) {
    remember(file, size, static_cast<int>(now - size));
  }
  return real(file)->pMethods->xTruncate(real(file), size);
}
int sync(sqlite3_file* file, int flags) {
  if (!powered()) {
    return SQLITE_IOERR_FSYNC;
  }
  disk().unsynced.erase(*ours(file)->name);
  return real(file)->pMethods->xSync(real(file), flags);
}
int file_size(sqlite3_file* file, sqlite3_int64* size) {
  return real(file)->pMethods->xFileSize(real(file), size);
}
int lock(sqlite3_file* file, int level) {
  return real(file)->pMethods->xLock(real(file), level);
}
int unlock(sqlite3_file* file, int level) {
  return real(file)->pMethods->xUnlock(real(file), level);
}
int check_reserved(sqlite3_file* file, int* out) {
  return real(file)->pMethods->xCheckReservedLock(real(file), out);
}
int control(sqlite3_file* file, int op, void* argument) {
  return real(file)->pMethods->xFileControl(real(file), op, argument);
}
int sector_size(sqlite3_file* file) {
  return real(file)->pMethods->xSectorSize(real(file));
}
int characteristics(sqlite3_file*) {
  return 0;  // promises nothing: no atomic writes, no safe append
}
int shm_map(sqlite3_file* file, int page, int size, int extend, void volatile** out) {
  return real(file)->pMethods->xShmMap(real(file), page, size, extend, out);
}
int shm_lock(sqlite3_file* file, int offset, int n, int flags) {
  return real(file)->pMethods->xShmLock(real(file), offset, n, flags);
}
void shm_barrier(sqlite3_file* file) {
  real(file)->pMethods->xShmBarrier(real(file));
}
int shm_unmap(sqlite3_file* file, int remove) {
  return real(file)->pMethods->xShmUnmap(real(file), remove);
}

constexpr sqlite3_io_methods k_methods{2,
                                       close_file,
                                       read,
                                       write,
                                       cut_short,
                                       sync,
                                       file_size,
                                       lock,
                                       unlock,
                                       check_reserved,
                                       control,
                                       sector_size,
                                       characteristics,
                                       shm_map,
                                       shm_lock,
                                       shm_barrier,
                                       shm_unmap,
                                       nullptr,
                                       nullptr};

int open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* out_flags) {
  File* one = ours(file);
  one->base.pMethods = nullptr;
  if (disk().gone) {
    return SQLITE_CANTOPEN;
  }
  const int code = disk().real->xOpen(disk().real, name, one->real(), flags, out_flags);
  if (code == SQLITE_OK) {
    one->name = new std::string(name == nullptr ? "" : name);
    one->base.pMethods = &k_methods;
  }
  return code;
}
int remove_file(sqlite3_vfs*, const char* name, int sync_folder) {
  if (!powered()) {
    return SQLITE_IOERR_DELETE;
  }
  disk().unsynced.erase(name);
  return disk().real->xDelete(disk().real, name, sync_folder);
}

/// Takes some of the unsynced writes back, the newest first. A write that stays may be
/// torn: its second half is taken back.
void lose(const std::string& name, const std::vector<Undo>& undos) {
  std::FILE* file = std::fopen(name.c_str(), "r+b");
  if (file == nullptr) {
    return;
  }
  Disk& d = disk();
  for (auto undo = undos.rbegin(); undo != undos.rend(); ++undo) {
    const auto fate = d.chance() % 4;         // 0, 1 lost; 2 torn; 3 it reached the platter
    if (fate == 3 || undo->before.empty()) {  // nothing stood there before
      continue;
    }
    const std::size_t kept = fate == 2 ? undo->before.size() / 2 : 0;
    std::fseek(file, static_cast<long>(undo->offset) + static_cast<long>(kept), SEEK_SET);
    std::fwrite(undo->before.data() + kept, 1, undo->before.size() - kept, file);
  }
  std::fclose(file);
  // A file that grew may have lost its new length too.
  if (d.chance() % 2 == 0 && !undos.empty()) {
    sqlite3_int64 size = undos.front().size_before;
    std::FILE* shorter = std::fopen(name.c_str(), "r+b");
    std::fseek(shorter, 0, SEEK_END);
    const long now = std::ftell(shorter);
    std::fclose(shorter);
    if (now > size && ::truncate(name.c_str(), size) != 0) {
      std::perror("truncate");
    }
  }
}

}  // namespace

void use_cut_disk() {
  Disk& d = disk();
  if (d.real != nullptr) {
    return;
  }
  d.real = sqlite3_vfs_find(nullptr);
  d.self = *d.real;
  d.self.zName = "cut-disk";
  d.self.szOsFile = static_cast<int>(sizeof(File)) + d.real->szOsFile;
  d.self.xOpen = open;
  d.self.xDelete = remove_file;
  sqlite3_vfs_register(&d.self, 1);
}

void cut_after(std::uint32_t writes, std::uint64_t seed) {
  Disk& d = disk();
  d.unsynced.clear();
  d.armed = true;
  d.gone = false;
  d.writes_left = writes;
  d.chance.seed(seed);
}

bool power_is_gone() {
  return disk().gone;
}

void power_again() {
  Disk& d = disk();
  for (const auto& [name, undos] : d.unsynced) {
    lose(name, undos);
  }
  d.unsynced.clear();
  d.armed = false;
  d.gone = false;
}

}  // namespace maslin
