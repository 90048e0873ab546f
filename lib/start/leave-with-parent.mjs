// Loaded before a program that `npm start` runs: when the starter is gone, however it went, the program ends too,
// so that the next start finds its port and its jobs free.
process.once('disconnect', () => {
  process.kill(process.pid, 'SIGTERM')
  setTimeout(() => process.exit(1), 5000).unref()
})
