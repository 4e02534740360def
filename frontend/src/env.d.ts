declare module "*.css";
declare module "@fontsource-variable/newsreader/index.css";
