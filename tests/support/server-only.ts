// Stands in for the "server-only" marker package outside Next's bundler.
export {};
