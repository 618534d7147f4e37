-- SPDX-License-Identifier: ISC
-- A sound for tests: each note that begins becomes one sample as high as its key,
-- so that an exported file tells which keys were struck at which sample.
ardour { ["type"] = "dsp", name = "Fourlimb test clicks", license = "ISC",
         description = [[One sample for each note, key / 256 high]] }

function dsp_ioconfig()
	return { { midi_in = 1, midi_out = 1, audio_in = 0, audio_out = 2 } }
end

function dsp_run(_, outs, samples)
	local wave = {}
	for i = 1, samples do wave[i] = 0 end
	for _, event in pairs(midiin) do
		local status, key, velocity = event.data[1], event.data[2], event.data[3]
		if status >> 4 == 9 and velocity > 0 then
			wave[event.time] = wave[event.time] + key / 256
		end
	end
	for channel = 1, #outs do outs[channel]:set_table(wave, samples) end
end
