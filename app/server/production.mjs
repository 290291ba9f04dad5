// Read before anything else is: Next and React decide by it what they load.
process.env.NODE_ENV = process.argv.includes('--dev') ? 'development' : 'production';
