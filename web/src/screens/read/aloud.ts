// The answer for someone who looks at the staff, not at the screen.
import type { Unit } from '$api';
import { highLow, length } from '../../app/format';
import type { Seen } from './reading.svelte';

export function sayAloud(seen: Seen, unit: Unit) {
    if (typeof speechSynthesis === 'undefined') return;
    const deviation = seen.station?.deviation ?? null;
    const words = deviation !== null ? highLow(deviation, unit).replace('mm', 'millimetres') : seen.level ? length(seen.level.level) : '';
    if (words === '') return;
    speechSynthesis.cancel();
    speechSynthesis.speak(new SpeechSynthesisUtterance(words));
}
