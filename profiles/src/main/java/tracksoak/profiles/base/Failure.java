package tracksoak.profiles.base;

import java.io.EOFException;
import java.net.ConnectException;
import java.net.NoRouteToHostException;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import java.nio.channels.ClosedChannelException;
import java.nio.channels.UnresolvedAddressException;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.FileSystemLoopException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What went wrong in files and on the network, in words: many failures say nothing but the name of their class. Stateless. */
public final class Failure {

    private record Known(Class<? extends Throwable> of, String words) {}

    private static final List<Known> KNOWN = List.of(
            new Known(NoSuchFileException.class, "there is no such file or folder"),
            new Known(AccessDeniedException.class, "it is not allowed"),
            new Known(FileAlreadyExistsException.class, "it is there already"),
            new Known(DirectoryNotEmptyException.class, "the folder is not empty"),
            new Known(NotDirectoryException.class, "it is no folder"),
            new Known(FileSystemLoopException.class, "its links lead round in a circle"),
            new Known(EOFException.class, "it ends too early"),
            new Known(ClosedChannelException.class, "it was closed"),
            new Known(ConnectException.class, "nothing answers there"),
            new Known(NoRouteToHostException.class, "no way leads there"),
            new Known(SocketTimeoutException.class, "no answer came in time"),
            new Known(UnknownHostException.class, "no computer of that name is known"),
            new Known(UnresolvedAddressException.class, "no computer of that name is known"));

    private Failure() {}

    /** Why it failed, without the file it is about. As it comes from the system: make it {@link Inert}. */
    public static String words(Throwable failed) {
        if (failed instanceof FileSystemException file && file.getReason() != null) {
            return file.getReason();
        }
        for (Known known : KNOWN) {
            if (known.of.isInstance(failed)) {
                return known.words;
            }
        }
        if (failed instanceof FileSystemException) {
            return "the system gave no reason";
        }
        String message = failed.getMessage();
        Throwable cause = failed.getCause();
        if (message != null && !message.isBlank() && !(cause != null && message.equals(cause.toString()))) {
            return message;
        }
        return cause == null || cause == failed ? "the system gave no reason" : words(cause);
    }

    /** The same, after the file or computer it is about, where the failure names one: {@code /media/a: there is no such file or folder}. */
    public static String told(Throwable failed) {
        String about = about(failed);
        return about == null ? words(failed) : about + ": " + words(failed);
    }

    private static @Nullable String about(Throwable failed) {
        if (failed instanceof FileSystemException file) {
            String other = file.getOtherFile();
            return file.getFile() == null ? null : file.getFile() + (other == null ? "" : " -> " + other);
        }
        return failed instanceof UnknownHostException ? failed.getMessage() : null;
    }
}
