package tracksoak.bench.standin;

/** A client broke the protocol so that nothing it says further can be understood. The message is harmless to look at. */
final class ProtocolBreach extends Exception {
    private static final long serialVersionUID = 1L;

    ProtocolBreach(String how) {
        super(how, null, false, false);
    }
}
