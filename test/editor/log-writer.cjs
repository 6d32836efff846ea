/**
 * Stands in for the editor's own log writer, which is a native module: log files and output channels are plain appends.
 * Installed by install-editor.sh in that module's place; its names are those that the editor calls.
 */
const fs = require('node:fs');
const { dirname } = require('node:path');

const LEVELS = ['trace', 'debug', 'info', 'warn', 'error', 'critical'];
const INFO = 2;

class Logger {
  constructor(file) {
    this.file = file;
    this.least = INFO;
    fs.mkdirSync(dirname(file), { recursive: true });
  }
  setPattern() {}
  flush() {}
  drop() {}
  clearFormatters() {
    this.plain = true;
  }
  setLevel(level) {
    this.least = level;
  }
  getLevel() {
    return this.least;
  }
  write(level, name, message) {
    if (level < this.least) return;
    try {
      fs.appendFileSync(this.file, this.plain ? message : `${new Date().toISOString()} [${name}] ${message}\n`);
    } catch {
      // The folder goes at the end of a test, before the last line is written.
    }
  }
}

LEVELS.forEach((name, level) => {
  Logger.prototype[name] = function log(message) {
    this.write(level, name, message);
  };
});

exports.createRotatingLogger = exports.createAsyncRotatingLogger = async (_name, file) => new Logger(file);
exports.setFlushOn = exports.setLevel = exports.shutdown = () => {};
