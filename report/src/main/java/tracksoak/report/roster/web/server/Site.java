package tracksoak.report.roster.web.server;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** What is served: the answers behind the guards. Any thread. */
public interface Site {

    /** Every address, each matched against the whole path. */
    List<Route> routes();

    /** How far the roster is: changes with every event that comes in, from whatever side. */
    String mark();

    /** A refusal as a page. */
    String page(Refusal refusal);

    /** The form that takes a token, with what was wrong with the last try. */
    String entrance(@Nullable Refusal before);
}
