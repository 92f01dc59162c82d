#!/usr/bin/env node
// CommonJS (see package.json beside): Node has its loader at hand before the one for modules.
const { run } = require('../dist/cli.cjs');

run(process.argv.slice(2), process).then((exitCode) => {
  process.exitCode = exitCode;
});
