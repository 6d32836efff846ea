import { describe } from 'node:test';
import { mannersSteps } from './manners-steps.ts';

describe('what the extension adds around the text, installed', { timeout: 300_000 }, () => {
  mannersSteps('installed');
});
describe('the same in an editor that runs in the browser', { timeout: 300_000 }, () => {
  mannersSteps('worker');
});
