-- What a busy table of bakers asks: mostly the page and looking things up, some reading
-- of recipes, now and then a version to keep and a forecast of 64 draws. Counts every
-- answer that is no 200.
local recipe = [[Milk buns\n\n500 g plain flour\n300 ml milk\n7 g instant yeast\n8 g salt\n40 g sugar\n\nKnead. Leave to rise until doubled, about 1 hour. Shape 12 buns. Bake at 190C for 15 minutes.]]
-- What the program reads of it; load.sh leaves it there.
local document = io.open(os.getenv("LOAD_RECIPE")):read("*a")
local threads = {}

function setup(thread)
  table.insert(threads, thread)
end

function init()
  turn = math.random(100)
  bad = 0
end

function request()
  turn = turn + 1
  local host = { ["Host"] = wrk.host .. ":" .. wrk.port, ["Content-Type"] = "application/json" }
  local kind = turn % 20
  if kind == 0 then
    return wrk.format("POST", "/api/v1/forecast", host, '{"text":"' .. recipe .. '","draws":64,"seed":' .. turn .. "}")
  elseif kind == 1 then
    -- One recipe under a title of fifty: a version more each time.
    local edited = document:gsub('"title":"[^"]*"', '"title":"Milk buns ' .. turn % 50 .. '"', 1)
    return wrk.format("POST", "/api/v1/library", host, '{"name":"buns","recipe":' .. edited .. "}")
  elseif kind < 6 then
    return wrk.format("POST", "/api/v1/read", host, '{"text":"' .. recipe .. '"}')
  elseif kind < 12 then
    return wrk.format("GET", "/api/v1/pantry?word=flour", host)
  end
  return wrk.format("GET", "/", host)
end

function response(status)
  if status ~= 200 then
    bad = bad + 1
    last_bad = status
  end
end

function done(summary, latency)
  local not_ok = 0
  for _, thread in ipairs(threads) do
    not_ok = not_ok + thread:get("bad")
  end
  io.write(string.format(
    "requests %d, per second %.0f, not 200: %d, socket errors: %d, p50 %.1f ms, p99 %.1f ms, longest %.1f ms\n",
    summary.requests, summary.requests / summary.duration * 1e6, not_ok,
    summary.errors.connect + summary.errors.read + summary.errors.write + summary.errors.timeout,
    latency:percentile(50) / 1000, latency:percentile(99) / 1000, latency.max / 1000))
end
