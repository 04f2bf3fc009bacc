package tracksoak.bench.job;

/** Name and version of this build. */
public final class Version {

    private Version() {}

    /** For the record and for people: {@code tracksoak 1.0.0}. */
    public static String tool() {
        String version = Version.class.getPackage().getImplementationVersion();
        return "tracksoak " + (version == null ? "from class files" : version);
    }

    /** The same with the Java it runs on. */
    public static String full() {
        return tool() + " (Java " + System.getProperty("java.version") + ", " + System.getProperty("os.name") + " "
                + System.getProperty("os.arch") + ")";
    }
}
