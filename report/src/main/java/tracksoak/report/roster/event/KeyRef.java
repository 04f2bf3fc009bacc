package tracksoak.report.roster.event;

/**
 * The key an event is about.
 *
 * @param key public key, 43 characters of base64url
 * @param name the tester whose key it is
 */
public record KeyRef(String key, String name) {}
