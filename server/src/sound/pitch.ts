/** Pitches as frequencies: twelve equal steps to the octave, the A above middle C at 440 Hz. */
import { powerOfTwo } from '../util/power.ts';

const A = 69;
const HERTZ_OF_A = 440;

/** In Hz. `midi` may lie between two notes: 69.5 is a quarter tone above A. */
export const hertz = (midi: number): number => HERTZ_OF_A * powerOfTwo((midi - A) / 12);
