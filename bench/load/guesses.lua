-- Guesses at the code by which a phone joins, as fast as they are answered.
local letters = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"
local threads = {}

function setup(thread)
  table.insert(threads, thread)
end

function init()
  math.randomseed(os.time())
  let_in = 0
  refused = 0
end

function request()
  local code = ""
  for i = 1, 8 do
    local at = math.random(#letters)
    code = code .. letters:sub(at, at)
  end
  local host = { ["Host"] = wrk.host .. ":" .. wrk.port, ["Content-Type"] = "application/json" }
  return wrk.format("POST", "/api/v1/pair", host, '{"code":"' .. code .. '","name":"guesser"}')
end

function response(status)
  if status == 200 then
    let_in = let_in + 1
  elseif status >= 400 and status < 500 then
    refused = refused + 1
  end
end

function done(summary)
  local into, away = 0, 0
  for _, thread in ipairs(threads) do
    into = into + thread:get("let_in")
    away = away + thread:get("refused")
  end
  io.write(string.format("guesses %d, per second %.0f, refused %d, let in: %d\n", summary.requests,
    summary.requests / summary.duration * 1e6, away, into))
end
