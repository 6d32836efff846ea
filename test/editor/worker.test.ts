import { describe } from 'node:test';
import { userSteps } from './user-steps.ts';

describe('the extension in an editor that runs in the browser', { timeout: 300_000 }, () => {
  userSteps('worker');
});
