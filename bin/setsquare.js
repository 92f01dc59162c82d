#!/usr/bin/env node
// CommonJS (see package.json beside): Node has its loader at hand before the one for modules.
let run;
try {
  ({ run } = require('../dist/cli.cjs'));
} catch (error) {
  if (error.code !== 'MODULE_NOT_FOUND' || !error.message.includes('../dist/cli.cjs')) throw error;
  console.error('setsquare is not built yet; run npm ci && npm run build in its folder.');
  process.exit(2);
}

run(process.argv.slice(2), process).then((exitCode) => {
  process.exitCode = exitCode;
});
