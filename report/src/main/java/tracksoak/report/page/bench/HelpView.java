package tracksoak.report.page.bench;

import java.util.List;
import tracksoak.report.roster.web.page.view.Frame;

/** What else there is, and how it is reached. */
public record HelpView(Frame frame, List<Command> commands) {

    /**
     * What is typed in a terminal.
     *
     * @param words how
     * @param meaning what it does, a sentence
     */
    public record Command(String words, String meaning) {}
}
