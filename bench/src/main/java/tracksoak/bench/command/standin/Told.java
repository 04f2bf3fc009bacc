package tracksoak.bench.command.standin;

import tracksoak.bench.command.console.Console;
import tracksoak.bench.standin.StandInListener;

/** Says what happens to a stand-in that is served. */
class Told implements StandInListener {

    private final Console console;

    Told(Console console) {
        this.console = console;
    }

    @Override
    public void connected(String peer) {
        console.say(peer + " uses the drive");
    }

    @Override
    public void gone(String peer) {
        console.say(peer + " has left the drive");
    }

    @Override
    public void dropped(String peer, String why) {
        console.say("the connection of " + peer + " was ended: " + why);
    }

    @Override
    public void refused(String peer, String why) {
        console.say(peer + " was refused: " + why);
    }

    @Override
    public void trouble(String what) {
        console.complain(what, "make room on this computer's disk, and record again");
    }
}
