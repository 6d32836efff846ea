/** Mocha's own spec output, and one closing line in a form that any build service can read. */
import Mocha from 'mocha';

export default class Reporter extends Mocha.reporters.Dot {
  constructor(runner: Mocha.Runner, options: Mocha.MochaOptions) {
    super(runner, options);
    let passed = 0;
    let failed = 0;
    let skipped = 0;
    runner.on('pass', () => passed++);
    runner.on('fail', () => failed++);
    runner.on('pending', () => skipped++);
    runner.once('end', () => console.log(`${passed} passed, ${failed} failed, ${skipped} skipped`));
  }
}
