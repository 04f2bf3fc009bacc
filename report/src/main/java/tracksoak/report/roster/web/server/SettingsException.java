package tracksoak.report.roster.web.server;

/** The server cannot be started as asked. The message says what, which value, why and what to do; no trace is needed. */
public final class SettingsException extends RuntimeException {

    private final transient Trouble trouble;

    SettingsException(String what, String which, String why, String whatToDo) {
        this(new Trouble(what, which, why, whatToDo));
    }

    private SettingsException(Trouble trouble) {
        super(trouble.sentence());
        this.trouble = trouble;
    }

    /** The message in its parts. */
    public Trouble trouble() {
        return trouble;
    }
}
