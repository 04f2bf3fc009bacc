package tracksoak.report.verdict;

import tracksoak.profiles.base.Count;

/** What is said beside bad blocks of those that were not read, so that nobody takes them for good ones. */
final class Unread {

    private Unread() {}

    /** For a figure. */
    static String figure(long unread) {
        return unread == 0 ? "" : ", " + Count.number(unread) + " not read";
    }

    /** For a sentence, right behind the bad ones. */
    static String words(long good, long unread) {
        if (unread == 0) {
            return "";
        }
        return good == 0
                ? ", and the other " + Count.inDigits(unread, "was", "were") + " not read; none came back as written"
                : ", and " + Count.inDigits(unread, "more was", "more were") + " not read";
    }
}
