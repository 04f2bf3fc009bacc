package tracksoak.bench.command;

/** Name and version of this build. */
final class Version {

    private Version() {}

    /** For the record and for people: {@code tracksoak 1.0.0}. */
    static String tool() {
        String version = Version.class.getPackage().getImplementationVersion();
        return "tracksoak " + (version == null ? "from class files" : version);
    }

    /** The same with the Java it runs on. */
    static String full() {
        return tool() + " (Java " + System.getProperty("java.version") + ", " + System.getProperty("os.name") + " "
                + System.getProperty("os.arch") + ")";
    }
}
