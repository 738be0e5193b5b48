/** TypeScript 6 asks for a declaration of what the bundler understands by itself. */
declare module '*.css';

/** An address to load it from. */
declare module '*.svg' {
  const address: string;
  export default address;
}
