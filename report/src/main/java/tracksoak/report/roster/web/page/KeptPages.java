package tracksoak.report.roster.web.page;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tracksoak.report.roster.web.server.HttpAnswer;

/**
 * Pages made once and kept until what they show changes; many who ask for one at once share it. Bounded: the page longest unused
 * goes first. Any thread.
 */
final class KeptPages {

    private static final int MOST_PAGES = 2_000;

    private final long mostBytes;
    private final Map<String, Page> pages = new LinkedHashMap<>(64, 0.75f, true);
    private long bytes;

    private static final class Page {
        private @Nullable HttpAnswer answer;
        private String state = "";
        private long counted;
    }

    /** @param mostBytes of all pages kept */
    KeptPages(long mostBytes) {
        this.mostBytes = mostBytes;
    }

    /**
     * The page of that name.
     *
     * @param state what it shows: a page made in another state is made anew
     */
    HttpAnswer of(String name, String state, Supplier<HttpAnswer> make) {
        Page page = page(name);
        synchronized (page) {
            HttpAnswer known = page.answer;
            if (known != null && page.state.equals(state)) {
                return known;
            }
            HttpAnswer made;
            try {
                made = make.get().kept();
            } catch (RuntimeException | Error e) {
                forget(name, page);
                throw e;
            }
            page.answer = made;
            page.state = state;
            count(name, page, made.size());
            return made;
        }
    }

    private synchronized Page page(String name) {
        return pages.computeIfAbsent(name, unknown -> new Page());
    }

    private synchronized void forget(String name, Page page) {
        if (pages.remove(name, page)) {
            bytes -= page.counted;
        }
    }

    private synchronized void count(String name, Page page, long size) {
        if (pages.get(name) != page) {
            return; // let go meanwhile
        }
        bytes += size - page.counted;
        page.counted = size;
        var eldest = pages.entrySet().iterator();
        while ((bytes > mostBytes || pages.size() > MOST_PAGES) && eldest.hasNext()) {
            bytes -= eldest.next().getValue().counted;
            eldest.remove();
        }
    }
}
