// Imported before everything else, and written so that an old Node can still read it.
const [major, minor] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`\nRimebook needs Node 20.19 or newer; this is Node ${process.versions.node}.\n`);
  process.exit(1);
}
