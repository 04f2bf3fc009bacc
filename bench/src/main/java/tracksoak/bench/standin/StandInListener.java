package tracksoak.bench.standin;

/** Hears what happens at a stand-in. Called by the thread that serves; all texts are harmless to look at. */
public interface StandInListener {

    /** Hears nothing. */
    StandInListener NONE = new StandInListener() {};

    /** A client began to use the drive. */
    default void connected(String peer) {}

    /** Its last connection ended. */
    default void gone(String peer) {}

    /** A connection was ended because of what the client did. */
    default void dropped(String peer, String why) {}

    /** A client was not let in, above all since another one uses the drive. */
    default void refused(String peer, String why) {}

    /** Something went wrong on this computer's side. */
    default void trouble(String what) {}
}
