// SPDX-License-Identifier: ISC
// Prints what even.c prints, by the npm package euclidean-rhythms in the folder
// named first: an implementation that isn't ours.
const { getPattern } = require(require("path").join(process.argv[2], "node_modules", "euclidean-rhythms"));
for (let count = 1; count <= 32; ++count) {
	for (let strokes = 1; strokes <= count; ++strokes) {
		const steps = getPattern(strokes, count).map((struck) => (struck ? "x" : "."));
		console.log(`${strokes} ${count} ${steps.join("")}`);
	}
}
