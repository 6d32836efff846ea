import { describe } from 'node:test';
import { userSteps } from './user-steps.ts';

describe('the packed extension, installed', { timeout: 300_000 }, () => {
  userSteps('installed');
});
