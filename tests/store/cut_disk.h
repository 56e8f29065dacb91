// A disk whose power can be cut: an SQLite VFS over the machine's own that remembers what
// was written since each file was last synced, and at the cut takes back what a real disk
// may have lost: any of those writes, in any order, whole or by half.
#pragma once

#include <cstdint>

namespace maslin {

/// Makes the disk SQLite's default from now on, for this process.
void use_cut_disk();

/// The power goes at the `writes`-th write, truncation or sync from now; every operation
/// after it fails. `seed` chooses what of the unsynced is lost.
void cut_after(std::uint32_t writes, std::uint64_t seed);

/// Whether the power went.
bool power_is_gone();

/// Power again: what was lost is gone from the files. All connections must be closed.
void power_again();

}  // namespace maslin
