package tracksoak.report.page.bench;

/** A way to go on. */
public record Link(String href, String text) {}
