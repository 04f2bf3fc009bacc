package tracksoak.report.roster.web.server;

/**
 * How much a client may ask of the server. All figures are hard limits; what is beyond is refused with the limit named.
 *
 * @param connections open at a time; further ones wait unaccepted, 1 to 10,000
 * @param headBytes of request line and headers, 1,024 to 65,536
 * @param bodyBytes of a body as sent, and again after inflating, 1,024 to 64 MiB
 * @param bodiesAtOnce bodies of the largest size held at a time, or as many smaller ones as take the same memory, 1 to 64
 * @param headS s from the opening of a connection, or from its last answer, to the end of the next request's head
 * @param bodyS s from the head to the end of the body
 * @param answerS s from the body to the end of the answer
 * @param readsPerS requests per s and address, lasting
 * @param readsAtOnce requests per address in a burst
 * @param wrongTokensAtOnce wrong tokens per address before further ones get no answer but that
 * @param wrongTokenEveryS s until one more is allowed
 * @param watchers pages kept live at a time
 */
public record Limits(
        int connections,
        int headBytes,
        int bodyBytes,
        int bodiesAtOnce,
        int headS,
        int bodyS,
        int answerS,
        int readsPerS,
        int readsAtOnce,
        int wrongTokensAtOnce,
        int wrongTokenEveryS,
        int watchers) {

    /** A crew and its phones, with room. */
    public static Limits usual() {
        return new Limits(1_000, 8_192, 20 << 20, 4, 15, 60, 120, 50, 1_000, 10, 6, 400);
    }

    /** Checks every figure. */
    public Limits {
        within("connections", connections, 1, 10_000);
        within("headBytes", headBytes, 1_024, 65_536);
        within("bodyBytes", bodyBytes, 1_024, 64 << 20);
        within("bodiesAtOnce", bodiesAtOnce, 1, 64);
        within("headS", headS, 1, 600);
        within("bodyS", bodyS, 1, 3_600);
        within("answerS", answerS, 1, 3_600);
        within("readsPerS", readsPerS, 1, 100_000);
        within("readsAtOnce", readsAtOnce, 1, 100_000);
        within("wrongTokensAtOnce", wrongTokensAtOnce, 1, 1_000);
        within("wrongTokenEveryS", wrongTokenEveryS, 1, 3_600);
        within("watchers", watchers, 0, 10_000);
    }

    /** Memory for bodies and answers under way at a time, in bytes. */
    long memoryBytes() {
        return (long) bodiesAtOnce * bodyBytes;
    }

    /** Connections that one client may have open. */
    int connectionsOfOne() {
        return Math.max(1, connections * 3 / 10);
    }

    /** Pages of one client kept live. */
    int watchersOfOne() {
        return Math.max(1, watchers / 2);
    }

    /** Pages kept live by one token, from however many addresses. */
    int watchersOfToken() {
        return Math.max(1, watchers / 4);
    }

    private static void within(String name, int value, int least, int most) {
        if (value < least || value > most) {
            throw RosterSettings.wrong(
                    name + " " + value, "it must be " + least + " to " + most, "give a figure in that range");
        }
    }
}
