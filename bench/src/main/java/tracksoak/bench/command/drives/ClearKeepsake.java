package tracksoak.bench.command.drives;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.folder.KeepsakeFolder;
import tracksoak.bench.drive.folder.RunLock;
import tracksoak.bench.job.KeepsakeShelf;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Units;

/**
 * Deletes one keepsake, named by the person, and this computer's list of it.
 *
 * @param yes whether to delete and not only to say what would be
 */
record ClearKeepsake(Console console, Rooms rooms, Path path, FoundDrive drive, boolean yes, boolean json) {

    /** Does it; the exit code. */
    int clear(String name) {
        KeepsakeShelf shelf = KeepsakeShelf.in(rooms);
        Optional<KeepsakeShelf.Entry> entry = shelf.all().stream()
                .filter(each -> KeepsakeFolder.nameOf(each.list().runId()).equals(name))
                .findFirst();
        try {
            Optional<KeepsakeFolder> folder = KeepsakeFolder.under(path).stream()
                    .filter(each -> each.name().equals(name))
                    .findFirst();
            if (folder.isEmpty() && entry.isEmpty()) {
                throw Problem.askedWrong(
                        "no keepsake named " + Inert.quoted(name) + " lies in " + Inert.quoted(path),
                        "give the name of its folder, TRACKSOAK-KEEPSAKE- and eight letters");
            }
            Long bytes = folder.isPresent() ? (Long) folder.get().bytes() : null;
            if (yes) {
                if (folder.isPresent()) {
                    try (RunLock lock = RunLock.take(rooms.stateFolder(), drive.lockKey(), "clear")) {
                        folder.get().clear(lock);
                    }
                }
                if (entry.isPresent()) {
                    shelf.forget(entry.get().list().runId());
                }
            }
            tell(name, folder.isPresent(), bytes);
        } catch (IOException refused) {
            throw ClearCommand.notDeleted(name, refused);
        }
        if (!yes) {
            console.complain("nothing was deleted", "add --yes to delete it");
            return Exit.USAGE;
        }
        return Exit.DONE;
    }

    private void tell(String name, boolean there, @Nullable Long bytes) {
        if (json) {
            Map<String, Object> entry = new LinkedHashMap<>();
            entry.put("folder", path.resolve(name).toString());
            entry.put("there", there);
            entry.put("bytes", bytes);
            entry.put("deleted", yes);
            Map<String, Object> document = JsonOption.document("clear/1");
            document.put("path", path.toString());
            document.put("folders", List.of());
            document.put("keepsakes", List.of(entry));
            console.out().println(JsonText.of(document));
        } else {
            console.out()
                    .println(Inert.whole((yes ? "deleted " : "found ")
                            + (there ? path.resolve(name) : "the list of " + name)
                            + (bytes == null ? "" : ", " + Units.bytes(bytes))));
        }
    }
}
