// Required before a program: on exit, what was loaded by `require` goes to the file named in LOADED_MODULES.
const { writeFileSync } = require('node:fs');
const Module = require('node:module');

const loaded = new Set();
const load = Module._load;
Module._load = (request, parent, isMain) => {
  loaded.add(Module.isBuiltin(request) ? request : Module._resolveFilename(request, parent, isMain));
  return load(request, parent, isMain);
};
process.on('exit', () => writeFileSync(process.env.LOADED_MODULES, JSON.stringify([...loaded])));
