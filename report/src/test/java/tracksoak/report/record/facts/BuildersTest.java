package tracksoak.report.record.facts;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.RecordComponent;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Every part of a record that is put together by name comes to stand under its own name, and no other changes. */
class BuildersTest {

    @Test
    void everyPartOfAPhaseIsPutInItsPlace() throws ReflectiveOperationException {
        PhaseFacts bare =
                PhaseFacts.builder(PhaseKind.TAKE, "2026-03-14T18:00:00Z").build();
        for (RecordComponent part : PhaseFacts.class.getRecordComponents()) {
            if (!List.of("kind", "startedAt").contains(part.getName())) {
                putsOnly(part, bare, bare.but());
            }
        }
    }

    @Test
    void everyPartOfADriveIsPutInItsPlace() throws ReflectiveOperationException {
        DriveFacts bare = DriveFacts.builder().build();
        for (RecordComponent part : DriveFacts.class.getRecordComponents()) {
            putsOnly(part, bare, bare.but());
        }
    }

    @Test
    void aPlanAndARunChangeInNothingElse() {
        PlanFacts plan = PlanFacts.of(PlanName.SOUND_CHECK, true, 1, 2, 3, 4);
        PlanFacts other = plan.keeping(5).besides(6, "b");

        assertThat(other).isEqualTo(new PlanFacts("sound-check", true, 1, 2, 3, 0, 4, 5L, false, 0, 0, 0, 6, "b"));
    }

    private static void putsOnly(RecordComponent part, Record bare, Object builder)
            throws ReflectiveOperationException {
        Object value = sample(part.getType());
        builder.getClass().getMethod(part.getName(), part.getType()).invoke(builder, value);
        Object made = builder.getClass().getMethod("build").invoke(builder);
        for (RecordComponent each : bare.getClass().getRecordComponents()) {
            Object expected = each.getName().equals(part.getName())
                    ? value
                    : each.getAccessor().invoke(bare);
            assertThat(each.getAccessor().invoke(made)).as(each.getName()).isEqualTo(expected);
        }
        assertThat(value).as(part.getName()).isNotEqualTo(part.getAccessor().invoke(bare));
    }

    /** Something of that type that is not what stands there where nothing was said. */
    private static Object sample(Class<?> type) throws ReflectiveOperationException {
        if (type.isRecord()) {
            Class<?>[] types = Stream.of(type.getRecordComponents())
                    .map(RecordComponent::getType)
                    .toArray(Class<?>[]::new);
            Object[] parts = new Object[types.length];
            for (int i = 0; i < types.length; i++) {
                parts[i] = sample(types[i]);
            }
            return type.getConstructor(types).newInstance(parts);
        }
        if (type.isEnum()) {
            return type.getEnumConstants()[1];
        }
        return switch (type.getSimpleName()) {
            case "double", "Double" -> 1.5;
            case "long", "Long" -> 7L;
            case "int", "Integer" -> 3;
            case "boolean", "Boolean" -> true;
            case "String" -> "a";
            case "IntColumn" -> IntColumn.of(1, 2);
            case "List" -> List.of("a");
            default -> throw new IllegalStateException(type + " is not known here");
        };
    }
}
