package tracksoak.bench.command;

/** The rooms the commands reach into, so that tests can furnish their own. */
interface Rooms {
    static Rooms ofThisMachine() {
        return new Rooms() {};
    }
}
