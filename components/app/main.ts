import { keepOffline } from "../shared/keep-offline.ts";
import "./ninefold-app.ts";

keepOffline();
