package tracksoak.report.page.view;

import java.util.List;

/** A list of sentences. */
public record Bullets(List<Shown> items) implements Block {

    public Bullets {
        items = List.copyOf(items);
    }

    /** A list of sentences that may hold anything. */
    public static Bullets of(List<String> items) {
        return new Bullets(items.stream().map(Shown::whole).toList());
    }
}
