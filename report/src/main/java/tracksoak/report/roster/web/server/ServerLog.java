package tracksoak.report.roster.web.server;

/** What the server has to say while it runs; every line is harmless to look at. Called by any thread. */
public interface ServerLog {

    /** One line per request: when, method, path without its query, status. */
    void request(String line);

    /** Something failed inside the server, or is going to. */
    void failure(String line);
}
