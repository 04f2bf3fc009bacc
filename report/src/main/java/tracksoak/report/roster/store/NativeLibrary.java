package tracksoak.report.roster.store;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import org.sqlite.util.LibraryLoaderUtil;

/**
 * The part of SQLite that is no Java. Its driver unpacks it anew in each process, unless it finds it in the folder that the system property
 * {@code org.sqlite.lib.path} names. Stateless.
 */
public final class NativeLibrary {

    private NativeLibrary() {}

    /**
     * Puts it into a folder, which is made; nothing where there is none for this system.
     *
     * @throws IOException if it cannot be written
     */
    public static void unpack(Path folder) throws IOException {
        String name = LibraryLoaderUtil.getNativeLibName();
        try (InputStream in = LibraryLoaderUtil.class.getResourceAsStream(
                LibraryLoaderUtil.getNativeLibResourcePath() + "/" + name)) {
            if (in != null) {
                Files.createDirectories(folder);
                Files.copy(in, folder.resolve(name));
            }
        }
    }
}
