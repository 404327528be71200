/** Stylesheets of parts that load on demand, linked by the build. */
declare module "*.css";
