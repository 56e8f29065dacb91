// The whole store as one JSON file and a folder of pictures, and back.
#pragma once

#include <string>

#include "store/store.h"

namespace maslin {

/// What was written or read.
struct Everything {
  int documents = 0;
  int names = 0;
  int trials = 0;
  int notes = 0;
  int pictures = 0;
};

/// Writes all that the store holds to FOLDER/library.json, one thing a line, and
/// FOLDER/pictures/. The folder must be new or empty; it is whole when this returns.
/// The same store gives the same bytes. Format: docs/schema/library.schema.json.
Everything write_out(Store& store, const std::string& folder);

/// Reads such a folder into an empty store: all of it or, when anything in it is wrong,
/// nothing. Throws StoreError with what is wrong and where.
Everything read_in(Store& store, const std::string& folder);

}  // namespace maslin
