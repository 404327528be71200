import { fastestLoops, PLAIN } from "../../src/measure/loops";

/** Says with which loops a measurement in a worker of this page would run. */
fastestLoops().then((loops) => self.postMessage(loops === PLAIN ? "plain" : "two at a time"));
