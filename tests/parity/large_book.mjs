// A made book with a given number of readings: one long line of an optical level out to a second benchmark, each
// set-up with a back sight, three intermediate points and a fore sight, sights of 25 to 45 m. The ground is a slow
// wave; reading errors come from a fixed seed, so that the book is the same everywhere.

const READINGS_PER_SETUP = 5;

// A linear congruential generator with the constants of the C standard's example of rand(); 0 to 1.
function generator(seed) {
    let state = BigInt(seed);
    return () => {
        state = (state * 1103515245n + 12345n) % 2147483648n;
        return Number(state) / 2147483648;
    };
}

// A triangle wave: plain arithmetic, so that every engine makes the same ground.
function ground(station) {
    const phase = (station % 800) / 400;
    return 50 + 4 * (phase < 1 ? phase : 2 - phase);
}

export function largeBook(readings) {
    const random = generator(20260504);
    const error = () => 0.001 * (random() + random() + random() - 1.5);
    const lines = [];
    const add = (entry) => lines.push(JSON.stringify(entry));
    const setups = Math.max(1, Math.round(readings / READINGS_PER_SETUP));
    add({ kind: 'book', format: 'fallwright', version: 1, title: `a line of ${setups} set-ups` });
    add({ kind: 'benchmark', point: 'P0', level: ground(0) });
    add({ kind: 'benchmark', point: `P${setups}`, level: Number(ground(setups).toFixed(3)), sd: 0.002 });
    add({ kind: 'instrument', name: 'level', type: 'optical-level', reading_sd: 0.0008, sd_per_m: 0.000012 });
    for (let i = 0; i < setups; ++i) {
        add({ kind: 'setup', name: `S${i}`, instrument: 'level' });
        const plane = ground(i + 0.5) + 1.5 + 0.2 * random();
        const read = (point, station, sight) => add({
            kind: 'reading', point, sight,
            staff: Number((plane - ground(station) + error()).toFixed(3)),
            dist: Number((25 + 20 * random()).toFixed(1)),
        });
        read(`P${i}`, i, 'back');
        for (const part of [0.25, 0.5, 0.75]) read(`I${i}-${part * 4}`, i + part, 'inter');
        read(`P${i + 1}`, i + 1, 'fore');
    }
    return lines.join('\n') + '\n';
}
