package tracksoak.report.roster.web.server;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * What answers one kind of request.
 *
 * @param method HTTP method; GET answers HEAD too
 * @param path the whole path
 * @param access who may ask
 * @param mostBytes of its body, 0 for none
 * @param endpoint answers; null for the stream of news, which goes on
 */
public record Route(
        String method,
        Pattern path,
        Access access,
        int mostBytes,
        @Nullable Endpoint endpoint) {

    /** Who may ask. */
    public enum Access {
        /** Anybody. */
        ANYBODY,
        /** Whoever may read. */
        READERS,
        /** Whoever sends a crew token in the header of the request. */
        CREW,
        /** Anybody, but only from a page of this server. */
        OWN_PAGES,
        /** Whoever may read, but only from a page of this server: for what starts or changes something. */
        READERS_ON_OWN_PAGES
    }

    /** Answers; may block. */
    public interface Endpoint {
        HttpAnswer answer(Exchange exchange, Matcher path, byte[] body);
    }

    /** Where pages wait for news. */
    static Route news(String path) {
        return new Route("GET", Pattern.compile(path), Access.READERS, 0, null);
    }

    public static Route get(String path, Access access, Endpoint endpoint) {
        return new Route("GET", Pattern.compile(path), access, 0, endpoint);
    }

    public static Route post(String path, Access access, int mostBytes, @Nullable Endpoint endpoint) {
        return new Route("POST", Pattern.compile(path), access, mostBytes, endpoint);
    }
}
