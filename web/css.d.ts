/** TypeScript 6 asks for a declaration of what the bundler understands by itself. */
declare module '*.css';
