/** Turns of phrase that the messages share, so that all findings speak with one voice. */

export { counted, fingerName, listed, quoted } from '../../truth/words.ts';

export const capitalised = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);
