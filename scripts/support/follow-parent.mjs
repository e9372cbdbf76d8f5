// Preloaded into the server (`node --import`): when the program that started it dies, however suddenly, it ends too.
process.on('disconnect', () => process.exit(0));
