package tracksoak.report.roster.web.server;

import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/** A request that is not served: what is wrong, with its HTTP status. Thrown by the code that answers requests, shown to the client as it is. */
public final class Refusal extends Problem {

    private static final long serialVersionUID = 1L;

    private final int status;
    private final int retryAfterS;
    private final boolean loginHelps;

    Refusal(int status, String what, String which, String why, String todo) {
        this(status, what, which, why, todo, 0, false);
    }

    private Refusal(
            int status, String what, String which, String why, String todo, int retryAfterS, boolean loginHelps) {
        super(kind(status), what, which, why, todo);
        this.status = status;
        this.retryAfterS = retryAfterS;
        this.loginHelps = loginHelps;
    }

    private static Kind kind(int status) {
        return switch (status) {
            case 404 -> Kind.NOT_FOUND;
            case 413, 415, 422 -> Kind.REFUSED;
            case 429, 503 -> Kind.BUSY;
            case 500 -> Kind.CANNOT;
            default -> Kind.ASKED_WRONG;
        };
    }

    /** HTTP status, 400 to 599. */
    int status() {
        return status;
    }

    /** After how many seconds to try again, 0 where that does not help. */
    int retryAfterS() {
        return retryAfterS;
    }

    /** Whether a person can enter a token and go on; asked for by a browser, the answer is the form for it. */
    boolean loginHelps() {
        return loginHelps;
    }

    /** Reading is closed, and no good token came with the request. */
    static Refusal closed() {
        return new Refusal(
                401,
                "a crew token is needed",
                "",
                "this roster is closed to readers without one",
                "send it as Authorization: Bearer TOKEN, or enter it at /enter",
                0,
                true);
    }

    /** What the roster itself cannot do. Troubles of its store are the server's own: what they say may name paths, so it stays in the log. */
    static Refusal of(Problem e) {
        String why = Inert.text(e.told());
        String whatToDo = e.todo().isEmpty() ? "correct it and try again" : Inert.text(e.todo());
        return switch (e.kind()) {
            case ASKED_WRONG -> new Refusal(400, "the request cannot be answered", "", why, whatToDo);
            case NOT_FOUND -> new Refusal(404, "there is nothing here", "", why, whatToDo);
            case REFUSED -> new Refusal(422, "this cannot be taken", "", why, whatToDo);
            case BUSY -> busy();
            case CANNOT, CORRUPT, FULL, NEWER, UNREACHABLE ->
                new Refusal(
                        503,
                        "the roster cannot answer",
                        "",
                        "its store cannot be used just now; the server's log says why",
                        "try again later, or ask whoever runs the server");
        };
    }

    /** Whether the one who runs the server should read of it. */
    static boolean ofTheStore(Problem e) {
        return !e.kind().ofTheAsker();
    }

    public static Refusal notFound(String which) {
        return new Refusal(404, "there is nothing here", which, "no page or drive has this address", "start at /");
    }

    /** A record that no report can be made of. */
    public static Refusal noReport(String why) {
        return new Refusal(
                422, "there is no report of this record", "", why, "take the record itself: add .json to the address");
    }

    static Refusal tooFast(String which, int retryAfterS) {
        return new Refusal(
                429,
                "too many requests",
                which,
                "the limit that keeps the roster usable for everybody is reached",
                "try again in " + retryAfterS + " s",
                retryAfterS,
                false);
    }

    static Refusal busy() {
        return new Refusal(
                503,
                "the roster is busy",
                "",
                "as many large requests as it takes at a time are under way",
                "try again in 2 s; nothing was changed",
                2,
                false);
    }

    static Refusal broken() {
        return new Refusal(
                500,
                "the roster cannot answer",
                "",
                "something failed inside the server; its log says what",
                "try again; if it stays so, ask whoever runs the server");
    }

    static Refusal tooLarge(int mostBytes) {
        return new Refusal(
                413,
                "the request cannot be taken",
                "the body",
                "larger than " + mostBytes + " bytes",
                "send it in smaller batches");
    }
}
