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
 */
public record Site(
        List<Route> routes,
        Supplier<String> mark,
        Function<Refusal, String> refusalPage,
        Function<@Nullable Refusal, String> loginPage) {

    public Site {
        routes = List.copyOf(routes);
    }
}
