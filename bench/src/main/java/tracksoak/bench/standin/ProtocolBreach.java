package tracksoak.bench.standin;

/** A client broke the protocol so that nothing it says further can be understood. The message is harmless to look at. */
final class ProtocolBreach extends Exception {
    private static final long serialVersionUID = 1L;

    private final String how;

    ProtocolBreach(String how) {
        super(how, null, false, false);
        this.how = how;
    }

    /** What the client did. */
    String how() {
        return how;
    }
}
