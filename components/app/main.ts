import "./ninefold-app.ts";
