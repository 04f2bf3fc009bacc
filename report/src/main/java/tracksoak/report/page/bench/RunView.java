package tracksoak.report.page.bench;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.web.page.view.Frame;

/**
 * One run, while it goes on and after.
 *
 * @param heading drive and session
 * @param state {@code pass}, {@code fail}, {@code none} or {@code going}: picks the shape
 * @param word the same in words
 * @param sentence the verdict, what it waits for, or what went wrong
 * @param todo what to do about what went wrong, may be empty
 * @param figures how it gets on, null before there is anything
 * @param chart backlog against buffer, null where there is none
 * @param notes sentences worth knowing
 * @param asked what was asked for
 * @param stop address to stop it, empty when it is over
 * @param secret lets this page stop it
 * @param links what can be done next
 */
public record RunView(
        Frame frame,
        Shown heading,
        String state,
        String word,
        Shown sentence,
        Shown todo,
        @Nullable Facts figures,
        @Nullable BacklogChart chart,
        List<Shown> notes,
        Facts asked,
        String stop,
        String secret,
        List<Link> links) {}
