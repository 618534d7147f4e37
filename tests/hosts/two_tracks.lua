-- SPDX-License-Identifier: ISC
-- Runs inside ardour7-lua: a session of two MIDI tracks, each with the plugin, in the
-- folder given, for window.sh to open.
local MIDI = ARDOUR.ChanCount(ARDOUR.DataType("midi"), 1)
AudioEngine:set_backend("None (Dummy)", "", "")
AudioEngine:set_buffer_size(256)
local session = create_session(arg[1], "two", 48000)
for _, name in ipairs({"drums", "more"}) do
	local track = session:new_midi_track(MIDI, MIDI, false, ARDOUR.PluginInfo(), nil, nil, 1, name, 0,
	                                     ARDOUR.TrackMode.Normal, true):front()
	local plugin = ARDOUR.LuaAPI.new_plugin(session, "urn:fourlimb:groove", ARDOUR.PluginType.LV2, "")
	assert(track:add_processor_by_index(plugin, -1, nil, true) == 0, "the plugin was refused")
end
session:save_state("")
close_session()
quit()
