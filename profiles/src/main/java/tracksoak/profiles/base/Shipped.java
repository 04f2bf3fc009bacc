package tracksoak.profiles.base;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;

/** Files that come with the program, from the class path. Stateless; any thread. */
public final class Shipped {

    private Shipped() {}

    /**
     * A whole file.
     *
     * @param name its path, beginning with {@code /}
     * @throws IllegalStateException if it is missing from the program
     */
    public static byte[] bytes(String name) {
        try (InputStream in = Shipped.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException(name + " is missing from the program");
            }
            return in.readAllBytes();
        } catch (IOException e) {
            throw new IllegalStateException(name + " cannot be read", e);
        }
    }

    /** The same as text, in UTF-8. */
    public static String text(String name) {
        return new String(bytes(name), StandardCharsets.UTF_8);
    }
}
