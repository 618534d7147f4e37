-- SPDX-License-Identifier: ISC
-- Runs inside ardour7-lua: for each take named a session with the plugin on one
-- MIDI track and a second MIDI track that records what comes out of the first.
-- The sessions are left in the folder given; check_takes.py reads them.
-- Usage: ardour7-lua takes.lua FOLDER TAKE ...
local folder = arg[1]
local MIDI = ARDOUR.ChanCount(ARDOUR.DataType("midi"), 1)
local UI = ARDOUR.TransportRequestSource.TRS_UI
local PLACE = ARDOUR.LocateTransportDisposition
local RATE = 48000
-- The id that Ardour's own export/wav.preset has.
local WAV_AT_SESSION_RATE = "75969a1c-3133-4694-864b-a1fa50e43348"

local function sleep(seconds)
	ARDOUR.LuaAPI.usleep(math.floor(seconds * 1000000))
end

local function wait(what, condition)
	for _ = 1, 48000 do -- four minutes: more than any machine takes
		if condition() then return end
		sleep(0.005)
	end
	error("waited in vain until " .. what)
end

local function new_track(session, name)
	return session:new_midi_track(MIDI, MIDI, false, ARDOUR.PluginInfo(), nil, nil, 1, name, 0,
	                              ARDOUR.TrackMode.Normal, true):front()
end

local function set_time(take)
	local map = Temporal.TempoMap.fetch_writable()
	map:set_tempo(Temporal.Tempo(take.tempo, take.tempo, take.tempo_unit), Temporal.timepos_t(0))
	map:set_meter(Temporal.Meter(take.meter[1], take.meter[2]), Temporal.timepos_t(0))
	Temporal.TempoMap.update(map)
end

local function add_plugin(track, plugin)
	assert(not plugin:isnil(), "Ardour does not know the plugin")
	assert(track:add_processor_by_index(plugin, -1, nil, true) == 0, "the plugin was refused")
end

-- The tape is a second track that records what the first one sends.
local function add_tape(session, drums)
	local tape = new_track(session, "tape")
	assert(tape:input():nth(0):connect(drums:output():nth(0):name()) == 0, "tracks not connected")
end

-- In place of the tape the export hears clicks.
local function add_clicks(session, drums)
	add_plugin(drums, ARDOUR.LuaAPI.new_luaproc(session, "Fourlimb test clicks"))
end

local function lay(session, take)
	set_time(take)
	local drums = new_track(session, "drums")
	add_plugin(drums, ARDOUR.LuaAPI.new_plugin(session, "urn:fourlimb:groove", ARDOUR.PluginType.LV2, ""))
	if take.clicks then
		add_clicks(session, drums)
	else
		add_tape(session, drums)
	end
end

local function arm(session)
	local tape = session:route_by_name("tape"):to_track()
	tape:rec_enable_control():set_value(1, PBD.GroupControlDisposition.NoGroup)
	session:maybe_enable_record(false)
	-- A start at once was seen to lose its first block now and then.
	sleep(0.3)
end

-- A loop range can't be made from here; Ardour reads it from the session file.
local function write_loop(path, loop)
	local file = assert(io.open(path))
	local text = file:read("a")
	file:close()
	local range = string.format('<Location id="900001" name="Loop" start="b%d" end="b%d" ' ..
		'flags="IsAutoLoop" locked="0" timestamp="0" cue="0"/>', loop[1] * 1920, loop[2] * 1920)
	local count
	text, count = text:gsub("<Locations/>", "<Locations>" .. range .. "</Locations>")
	if count == 0 then
		text, count = text:gsub("<Locations>", "<Locations>" .. range)
	end
	assert(count == 1, "no place for a loop in the session file")
	file = assert(io.open(path, "w"))
	file:write(text)
	file:close()
end

local function sample(take, quarters)
	return math.floor(quarters * 60 / (take.tempo * 4 / take.tempo_unit) * RATE)
end

local function roll_until(session, place)
	wait("sample " .. place, function() return session:transport_sample() >= place end)
end

local function stop(session)
	session:request_stop(false, false, UI)
	wait("it stops", function() return not session:transport_rolling() end)
	-- The butler writes the take to its file.
	wait("the take is written", function() return not session:actively_recording() end)
	sleep(0.3)
end

local function locate(session, place, disposition)
	session:request_locate(place, false, disposition, UI)
	wait("it is at " .. place, function() return session:transport_sample() >= place end)
end

local function roll(from, to)
	return function(session, take)
		locate(session, sample(take, from), PLACE.MustStop)
		arm(session)
		session:request_roll(UI)
		roll_until(session, sample(take, to))
		stop(session)
	end
end

-- Ardour refuses to locate while it records, so recording begins after it.
local function locate_rolling(away, from, to)
	return function(session, take)
		session:request_roll(UI)
		roll_until(session, sample(take, away))
		locate(session, sample(take, from), PLACE.MustRoll)
		arm(session)
		roll_until(session, sample(take, to))
		stop(session)
	end
end

-- Twice round and a bit.
local function loop(session, take)
	arm(session)
	session:request_play_loop(true, true)
	local past, turns = 0, 0
	wait("the loop has turned twice", function()
		local now = session:transport_sample()
		turns = turns + (now < past and 1 or 0)
		past = now
		return turns == 2 and now > sample(take, take.loop[1] + 2.6)
	end)
	stop(session)
end

-- Feet 1 up to quarter 7, 3 from there on; linear it were 2 at the second bar line.
-- What the plugin says of the control makes Ardour's list one of named whole numbers.
local FEET = 3 -- among the plugin's input controls

local function draw_lane(session, take)
	local plugin = session:route_by_name("drums"):nth_plugin(0)
	local _, lane, typed = ARDOUR.LuaAPI.plugin_automation(plugin, FEET)
	assert(typed.label == "Feet", "the control is called " .. typed.label)
	assert(typed.integer_step and typed.enumeration and not typed.toggled, "the lane is not typed")
	assert(typed.upper == 1999, "the lane goes up to " .. typed.upper)
	lane:add(Temporal.timepos_t(0), 1, false, false)
	lane:add(Temporal.timepos_t(sample(take, 7)), 3, false, false)
	assert(lane:set_interpolation(Evoral.InterpolationStyle.Discrete), "the lane can't be discrete")
	local index = Evoral.Parameter(ARDOUR.AutomationType.PluginAutomation, 0, 6) -- of its port
	plugin:to_automatable():automation_control(index, false):set_automation_state(ARDOUR.AutoState.Play)
end

local function roll_with_lane(from, to)
	return function(session, take)
		draw_lane(session, take)
		roll(from, to)(session, take)
	end
end

-- A pad is struck at the drums' own track while they play: it comes out among them.
local function strike(track, ...)
	local bytes = C.ByteVector()
	bytes:add({ ... })
	assert(track:write_immediate_event(Evoral.EventType.MIDI_EVENT, bytes:size(), bytes:to_array()))
end

local function roll_with_pads(to)
	return function(session, take)
		local drums = session:route_by_name("drums")
		local plugin = drums:nth_plugin(0):to_insert():plugin(0)
		assert(plugin:get_info().n_inputs:n_midi() == 1, "Ardour offers the plugin no MIDI in")
		arm(session)
		session:request_roll(UI)
		for strokes = 1, 4 do
			roll_until(session, sample(take, strokes))
			strike(drums:to_track():to_midi_track(), 0x99, 60, 10 * strokes)
			roll_until(session, sample(take, strokes + 0.1))
			strike(drums:to_track():to_midi_track(), 0x89, 60, 0)
		end
		roll_until(session, sample(take, to))
		stop(session)
	end
end

local function export(quarters)
	return function(session, take, path)
		local export = session:simple_export()
		export:set_preset(WAV_AT_SESSION_RATE)
		export:set_folder(path)
		export:set_name("exported")
		export:set_range(0, sample(take, quarters))
		assert(export:check_outputs(), "nothing to export to")
		assert(export:run_export(), "the export failed")
		-- The file is finished, and the session let go, when this object is gone.
		export = nil
		collectgarbage()
	end
end

-- tempo counts notes of tempo_unit; from, to and loop count quarter notes.
local takes = {
	start = { tempo = 150, tempo_unit = 4, meter = { 4, 4 }, play = roll(0, 8.3) },
	middle = { tempo = 133.7, tempo_unit = 4, meter = { 4, 4 }, play = roll(21.9, 26.3) },
	locate = { tempo = 150, tempo_unit = 4, meter = { 4, 4 }, play = locate_rolling(0.6, 42.1, 46.3) },
	loop = { tempo = 291.3, tempo_unit = 4, meter = { 4, 4 }, loop = { 4, 16 }, play = loop },
	seven = { tempo = 133.7, tempo_unit = 4, meter = { 7, 8 }, play = roll(0, 7.3) },
	eighths = { tempo = 300, tempo_unit = 8, meter = { 7, 8 }, play = roll(0, 7.3) },
	lane = { tempo = 150, tempo_unit = 4, meter = { 4, 4 }, play = roll_with_lane(0, 11.8) },
	pads = { tempo = 150, tempo_unit = 4, meter = { 4, 4 }, play = roll_with_pads(8.3) },
	export = { tempo = 133.7, tempo_unit = 4, meter = { 4, 4 }, clicks = true, play = export(64) },
}

local function record(name, take)
	local path = folder .. "/" .. name
	local session = assert(create_session(path, name, RATE), "no session")
	lay(session, take)
	if take.loop then
		session:save_state("")
		session = nil
		collectgarbage()
		close_session()
		write_loop(path .. "/" .. name .. ".ardour", take.loop)
		session = assert(load_session(path, name), "the session did not load")
	end
	take.play(session, take, path)
	session:save_state("")
	session = nil
	collectgarbage()
	close_session()
end

AudioEngine:set_backend("None (Dummy)", "", "")
AudioEngine:set_buffer_size(256)
for i = 2, #arg do
	local good, message = pcall(record, arg[i], takes[arg[i]])
	print("take " .. arg[i] .. ": " .. (good and "done" or tostring(message)))
	if not good then os.exit(1) end
end
quit()
