// Checks a Data Package with the Frictionless implementation for JavaScript: descriptor against
// its JSON Schema, every cell against its Table Schema, keys and foreign keys.
const { Package } = require('datapackage');

async function main(descriptor) {
  const pkg = await Package.load(descriptor);
  const found = { valid: pkg.valid, errors: pkg.errors.map(e => e.message), rows: {} };
  for (const resource of pkg.resources) {
    if (resource.tabular) {
      try {
        const rows = await resource.read({ relations: true });
        found.rows[resource.name] = rows.length;
      } catch (e) {
        found.errors.push(resource.name + ': ' + e.message);
        (e.errors || []).slice(0, 5).forEach(x => found.errors.push(resource.name + ': ' + x.message));
      }
    }
  }
  console.log(JSON.stringify(found));
}

main(process.argv[2]).catch(e => {
  console.log(JSON.stringify({ valid: false, errors: [e.message], rows: {} }));
});
