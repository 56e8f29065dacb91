# Which folder of src/ may use which: the one table behind the CMake targets,
# tools/check_layers and the picture in docs/architecture.md.
# A row reads "folder: what it may use"; the order is the order of building.
set(MASLIN_LAYERS
  "numerics:"
  "quantity:numerics"
  "pantry:numerics quantity"
  "recipe:numerics quantity pantry"
  "reading:numerics quantity pantry recipe"
  "properties:numerics quantity pantry recipe"
  "dough:numerics quantity pantry recipe properties"
  "rise:numerics quantity pantry recipe properties"
  "bake:numerics quantity pantry recipe properties"
  "finish:numerics quantity pantry recipe properties"
  "forecast:numerics quantity pantry recipe properties dough rise bake finish"
  "plan:numerics quantity pantry recipe properties dough rise bake finish forecast"
  "adjust:numerics quantity pantry recipe properties dough rise bake finish forecast"
  "handon:numerics quantity pantry recipe properties dough rise bake finish forecast plan adjust"
)
# Above: pure computation. Below: files, clocks, threads, sockets.
set(MASLIN_PURE
  numerics quantity pantry recipe reading properties dough rise bake finish forecast plan adjust handon)
# What is computed for every draw.
set(MASLIN_MODELS numerics quantity properties dough rise bake finish forecast)
list(APPEND MASLIN_LAYERS
  "print:numerics quantity pantry recipe properties dough rise bake finish forecast plan adjust handon"
  "store:numerics quantity pantry recipe"
  "app:numerics quantity pantry recipe reading properties dough rise bake finish forecast plan adjust handon print store"
  "cli:numerics quantity pantry recipe reading properties dough rise bake finish forecast plan adjust handon store app server"
  "server:numerics quantity pantry recipe reading properties dough rise bake finish forecast plan adjust handon store app"
  "wasm:numerics quantity pantry recipe reading properties dough rise bake finish forecast plan handon"
)
