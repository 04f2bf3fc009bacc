package tracksoak;

import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaClass;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * The rooms of the house, lowest first, and the arrows that may go between them. A room may use those it names and nothing
 * else; since it can only name rooms above its own line, there are no circles.
 */
final class House {

    /** A room: what belongs there, and the rooms it may use. */
    record Room(String name, String belongs, Set<String> uses) {}

    private static final String ROOT = "tracksoak.";

    // room : what belongs there, and below it the rooms it may use
    private static final String ROOMS = """
            profiles.base : what every room stands on and that knows nothing of ours
            profiles : what a session needs
                profiles.base

            report.record.facts : what a run, a climb or a drill measured
                profiles.base profiles
            report.record.facts.drill : what an unplug drill measured
                profiles.base profiles report.record.facts
            report.record.facts.inspection : what a recording that a recorder left showed
                report.record.facts
            report.record.json : records in and out of JSON
                profiles.base profiles report.record.facts report.record.facts.drill
                report.record.facts.inspection
            report.record.sign : keys, canonical text, signatures
                profiles.base report.record.facts report.record.json
            report.stats : statistics, plain numbers only
            report.verdict : criteria and the judge
                profiles.base profiles report.record.facts report.record.facts.drill report.stats
            report.history : runs of one drive held against each other
                profiles.base profiles report.record.facts report.stats report.verdict
            report.page.chart : what a chart is made of
                report.record.facts
            report.page.view : what a page shows, ready to be escaped
                profiles.base
            report.page : the HTML report
                profiles.base profiles report.record.facts report.record.facts.drill
                report.record.facts.inspection report.record.json report.stats report.verdict report.history report.page.chart report.page.view
            report.roster.identity : which drive is which
                profiles.base report.record.facts
            report.roster.event : what is said about drives, signed
                profiles.base report.record.facts report.record.json report.record.sign report.roster.identity
            report.roster.standing : what follows from the events
                profiles.base profiles report.record.facts report.record.sign report.verdict
                report.roster.identity report.roster.event
            report.roster.exchange : rosters that give each other what they have
                profiles.base report.record.facts report.record.json report.record.sign report.roster.identity
                report.roster.event report.roster.standing
            report.roster.store : the roster in a database
                profiles.base profiles report.record.facts report.record.sign report.roster.identity report.roster.event
                report.roster.standing report.roster.exchange
            report.roster : the roster as it is asked and told
                profiles.base profiles report.record.facts report.record.json report.record.sign
                report.roster.identity report.roster.event report.roster.standing report.roster.exchange
                report.roster.store
            report.roster.web.server : wire, guards and limits of the served roster
                profiles.base
            report.roster.web.page.view : what the roster's pages show
                report.page.view
            report.roster.web.page : what each address of the roster answers
                profiles.base profiles report.record.facts report.record.sign report.page.view report.page
                report.roster.identity report.roster.event report.roster.standing report.roster.exchange
                report.roster report.roster.web.server report.roster.web.page.view
            report.page.bench : what the bench's own pages show
                profiles.base report.page.view report.roster.web.page.view
            report.templates : pages made from templates
                profiles.base report.page.chart report.page.view report.page report.page.bench
                report.roster.web.page.view

            bench.drive.system : what the operating system says of drives
                profiles.base report.record.facts
            bench.drive.io : the interface every drive is reached through
                report.record.facts bench.drive.system
            bench.drive.folder : what is ours on a drive
                profiles.base bench.drive.system bench.drive.io
            bench.drive.find : which drives there are
                profiles.base report.record.facts bench.drive.system bench.drive.io bench.drive.folder
            bench.volume : partitions and file systems read without mounting them
                profiles.base
            bench.stream : stamped blocks and the files of a pass
                bench.drive.io
            bench.recorder.watch : watching while the recorder works
                profiles.base report.record.facts bench.drive.io
            bench.recorder.loop : the recorder
                profiles.base profiles report.record.facts bench.stream bench.recorder.watch
            bench.recording : WAVE files as recorders leave them, and what of a recording they are
                profiles.base profiles bench.volume
            bench.timecode : linear timecode, and the test signal made of it
            bench.simulated.figures : figures of simulated drives: ranges and words
            bench.simulated.medium : what a simulated medium holds, and where
            bench.simulated : drives on virtual time
                profiles.base report.record.facts bench.drive.system bench.drive.io bench.stream
                bench.simulated.figures bench.simulated.medium
            bench.simulated.catalog : simulated drives composed in files, and the named ones
                profiles.base profiles bench.simulated.figures bench.simulated
            bench.standin.trace : what was asked of a stand-in
                profiles.base
            bench.standin : a drive made of software, served to a recorder
                profiles.base report.record.facts bench.drive.io bench.volume bench.recorder.watch bench.simulated
                bench.standin.trace
            bench.standin.model : a recorder on virtual time, all of whose habits are known
                profiles.base bench.standin.trace bench.standin
            bench.standin.learn : how a recorder writes, and how much it holds
                profiles.base profiles bench.volume bench.recording bench.timecode bench.standin.trace
            bench.standin.probe : raising the length of stops until the recorder loses audio
                profiles.base bench.recorder.watch bench.standin.trace bench.standin
            bench.phase.timeleft : how long a run will still take
                report.record.facts
            bench.phase.run : a run, its steps and phases
                profiles.base profiles report.record.facts report.stats report.verdict bench.drive.system
                bench.drive.io bench.stream bench.recorder.watch bench.recorder.loop bench.phase.timeleft
            bench.phase.drill : the unplug drill
                profiles.base profiles report.record.facts report.record.facts.drill report.verdict
                bench.drive.io bench.stream bench.recorder.loop bench.phase.timeleft bench.phase.run
            bench.climb : how many tracks
                profiles.base profiles report.record.facts report.verdict bench.phase.run
            bench.replay : a run played for another session
                profiles.base profiles report.record.facts report.verdict bench.drive.io bench.stream
                bench.recorder.watch bench.recorder.loop
            bench.job : what can be asked of the bench
                profiles.base profiles report.record.facts report.record.facts.drill report.record.json
                report.record.sign report.verdict report.history report.page report.roster.identity
                report.roster.event report.roster.standing report.roster.store report.roster bench.drive.system
                bench.drive.io bench.drive.folder bench.drive.find bench.stream bench.simulated
                bench.simulated.catalog bench.phase.timeleft bench.phase.run bench.phase.drill bench.climb
            bench.tray : runs in processes of their own, and whose turn it is
                profiles.base profiles report.record.facts report.verdict bench.drive.system bench.drive.find
                bench.phase.timeleft bench.phase.run bench.phase.drill bench.job
            bench.page : what each address of the bench's page answers
                profiles.base profiles report.record.facts report.record.json report.page report.page.view
                report.page.bench report.roster.identity report.roster.standing report.roster
                report.roster.web.server report.roster.web.page.view report.roster.web.page bench.drive.find
                bench.simulated bench.simulated.catalog bench.phase.timeleft bench.phase.run bench.job bench.tray
            bench.inspect : a recording looked at: what is in it, and what is wrong with it
                profiles.base profiles report.record.facts report.record.facts.inspection report.record.json
                report.page bench.drive.find bench.volume bench.recording bench.timecode bench.job
            bench.command.console : what all commands share
                profiles.base profiles report.record.facts report.verdict report.page report.roster.store report.roster
                bench.phase.timeleft bench.phase.run bench.climb bench.job
            bench.command.session : the sessions commands, and the choice of a session
                profiles.base profiles report.verdict bench.job bench.command.console
            bench.command.drives : the drives and clear commands, and the choice of a drive
                profiles.base profiles report.record.facts bench.drive.folder bench.drive.find bench.simulated
                bench.simulated.catalog bench.phase.run bench.job bench.command.console
            bench.command.qualify : qualify, requalify, report
                profiles.base profiles report.record.facts report.record.json report.stats report.verdict
                report.history report.roster.identity report.roster.store bench.drive.find bench.simulated
                bench.phase.timeleft bench.phase.run bench.replay bench.job bench.tray bench.command.console
                bench.command.session bench.command.drives
            bench.command.climb : climb
                profiles.base profiles report.record.facts report.page report.record.json bench.phase.run bench.climb
                bench.job bench.command.console bench.command.session bench.command.drives
            bench.command.drill : drill
                profiles.base profiles report.record.facts report.record.facts.drill report.record.json bench.drive.find
                bench.phase.drill bench.job bench.command.console bench.command.session bench.command.drives
            bench.command.inspect : inspect, signal
                profiles.base profiles report.record.facts report.record.facts.inspection report.record.json
                bench.job bench.inspect bench.command.console
            bench.command.roster : the roster commands
                profiles.base profiles report.record.facts report.record.sign report.roster.identity
                report.roster.event report.roster.standing report.roster.exchange report.roster.store
                report.roster report.roster.web.server report.roster.web.page bench.job bench.command.console
                bench.command.session bench.command.drives
            bench.command.standin : the stand-in commands
                profiles.base profiles report.record.facts report.page report.page.view bench.volume bench.simulated
                bench.standin.trace bench.standin
                bench.standin.learn bench.standin.probe bench.job bench.command.console bench.command.drives
            bench.command.bench : the bench command
                profiles.base profiles report.page.bench report.roster report.roster.web.server report.roster.web.page bench.job
                bench.tray bench.page bench.command.console bench.command.roster
            bench.command.demo : an invented theatre and its drives
                profiles.base profiles report.record.facts report.record.sign report.roster.store report.roster
                report.roster.web.server report.roster.web.page bench.drive.find bench.simulated
                bench.phase.timeleft bench.phase.run bench.job bench.command.console bench.command.roster
                bench.recorder.watch bench.standin.trace bench.standin bench.standin.model bench.standin.learn
                bench.standin.probe bench.command.standin
            bench.command.main : main, the tree of commands, help, completion
                profiles.base profiles report.record.facts report.roster.store bench.simulated
                bench.simulated.catalog bench.drive.system
                bench.drive.find bench.job bench.command.console bench.command.session bench.command.drives
                bench.command.qualify bench.command.climb bench.command.drill bench.command.inspect
                bench.command.roster
                bench.command.standin bench.command.bench bench.command.demo
            """;

    private final Map<String, Room> rooms = new LinkedHashMap<>();

    House() {
        Room last = null;
        for (String line : ROOMS.lines().filter(line -> !line.isBlank()).toList()) {
            if (line.startsWith(" ")) {
                use(Objects.requireNonNull(last, "a room comes before what it uses"), line.trim());
            } else {
                String[] parts = line.split(" : ", 2);
                last = new Room(parts[0], parts[1], new TreeSet<>());
                rooms.put(last.name(), last);
            }
        }
    }

    private void use(Room room, String names) {
        for (String name : names.split(" +", -1)) {
            if (!rooms.containsKey(name) || name.equals(room.name())) {
                throw new IllegalStateException(room.name() + " may not use " + name + ", which stands below it");
            }
            room.uses().add(name);
        }
    }

    Map<String, Room> rooms() {
        return rooms;
    }

    /** The room a class lies in; empty where its package is none. */
    private static String roomOf(JavaClass one) {
        String name = one.getPackageName();
        if (!name.startsWith(ROOT)) {
            return "";
        }
        String inside = name.substring(ROOT.length());
        return inside.startsWith("report.templates") ? "report.templates" : inside;
    }

    /** What is wrong with where a class lies, each with the room it belongs in; empty where all is well. */
    List<String> wrongs(JavaClass one) {
        String at = roomOf(one);
        Set<String> used = one.getDirectDependenciesFromSelf().stream()
                .map(Dependency::getTargetClass)
                .map(target -> target.isArray() ? target.getBaseComponentType() : target)
                .filter(target -> target.getPackageName().startsWith(ROOT))
                .map(House::roomOf)
                .filter(room -> !room.equals(at))
                .collect(Collectors.toCollection(TreeSet::new));
        Room room = rooms.get(at);
        if (room == null) {
            return List.of(one.getName() + " lies in " + one.getPackageName() + ", which is no room of the house; "
                    + belongs(used));
        }
        return used.stream()
                .filter(use -> !room.uses().contains(use))
                .map(use -> one.getName() + " uses " + use + ", which " + at + " (" + room.belongs() + ") may not; "
                        + belongs(used))
                .toList();
    }

    private String belongs(Set<String> used) {
        List<String> fitting = rooms.values().stream()
                .filter(room -> used.stream()
                        .allMatch(use -> use.equals(room.name()) || room.uses().contains(use)))
                .map(room -> room.name() + " (" + room.belongs() + ")")
                .limit(3)
                .toList();
        return fitting.isEmpty()
                ? "no room may use all of " + String.join(", ", used) + ": split it"
                : "by what it uses it belongs in " + String.join(" or ", fitting);
    }
}
