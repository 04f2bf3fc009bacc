package tracksoak.report.roster.web.server;

import java.util.List;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * What is served: the answers behind the guards. Any thread.
 *
 * @param routes every address, each matched against the whole path
 * @param mark how far the roster is: changes with every event that comes in, from whatever side
 * @param refusalPage a refusal as a page
 * @param loginPage the form that takes a token, with what was wrong with the last try
 * @param ways how the site is reached and how soon news reach its pages
 */
public record Site(
        List<Route> routes,
        Supplier<String> mark,
        Function<Refusal, String> refusalPage,
        Function<@Nullable Refusal, String> loginPage,
        Ways ways) {

    /** How a site is reached. */
    public enum Ways {
        /** Over a network: a token is typed into a form and never stands in an address. */
        TYPED_TOKEN(300),
        /** From this computer: {@code /open?key=TOKEN} lets in, so that a browser can be sent there. */
        KEY_IN_ADDRESS(100);

        private final long lookEveryMs;

        Ways(long lookEveryMs) {
            this.lookEveryMs = lookEveryMs;
        }

        /** Between two looks whether something changed, in ms. */
        long lookEveryMs() {
            return lookEveryMs;
        }
    }

    public Site {
        routes = List.copyOf(routes);
    }
}
