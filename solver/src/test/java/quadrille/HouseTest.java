package quadrille;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.PackageMatcher;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** Holds the guards of the house: that {@link ArchitectureTest} says what it means to say. */
final class HouseTest {

  private static final List<String> WINGS =
      List.of("document", "seeking", "facts", "plan", "diary", "treatment");
  private static final Path SOURCES = Path.of("src/main/java/quadrille");
  private static final Pattern ROW =
      Pattern.compile("\\| `quadrille\\.(?!cli)([a-z.]+)` \\|.*\\| ([^|]+) \\|");
  private static final Pattern PACKAGE =
      Pattern.compile("\"((?:quadrille|ai|com|java)(?:\\.[a-z]+)*(?:\\.\\.)?)\"");

  private static final Pattern NAMED = Pattern.compile("(quadrille\\.[a-z.]+\\.[A-Z]\\w+)");

  private static final JavaClasses HOUSE =
      new ClassFileImporter()
          .withImportOption(new ImportOption.DoNotIncludeTests())
          .importPackages("quadrille");

  @Test
  void theDevelopersTableIsTheTableOfTheRules() throws IOException {
    Map<String, String> written = new LinkedHashMap<>();
    for (String line : Files.readAllLines(Path.of("../DEVELOPERS.md"))) {
      Matcher row = ROW.matcher(line);
      if (row.matches()) {
        written.put(row.group(1), row.group(2).replace("`", ""));
      }
    }
    assertEquals(lines(ArchitectureTest.ROOMS), lines(written));
  }

  private static String lines(Map<String, String> rooms) {
    return rooms.entrySet().stream()
        .map(room -> room.getKey() + ": " + room.getValue())
        .collect(Collectors.joining("\n"));
  }

  @Test
  void arrowsRunDownTheTable() {
    List<String> rooms = List.copyOf(ArchitectureTest.ROOMS.keySet());
    for (String room : rooms) {
      for (String known : ArchitectureTest.known(room)) {
        assertTrue(rooms.contains(known), room + " may know " + known + ", which is no room");
        assertTrue(
            rooms.indexOf(known) < rooms.indexOf(room),
            room + " may know " + known + ", which does not stand before it");
      }
    }
  }

  @Test
  void theRoomsOfAWingStandTogether() {
    Set<String> wings = new LinkedHashSet<>();
    String last = "";
    for (String room : ArchitectureTest.ROOMS.keySet()) {
      String wing = room.split("\\.")[0];
      assertTrue(wings.add(wing) || wing.equals(last), room + " stands apart from its wing");
      last = wing;
    }
    assertEquals(WINGS, List.copyOf(wings));
  }

  @Test
  void everyRoomHoldsAClassOfItsOwn() {
    for (String room : ArchitectureTest.ROOMS.keySet()) {
      assertTrue(
          HOUSE.stream()
              .anyMatch(
                  one ->
                      one.getPackageName().equals("quadrille." + room)
                          && !one.getSimpleName().equals("package-info")),
          room);
    }
  }

  @Test
  void everyWingAndRoomSaysWhereToBegin() throws IOException {
    Set<String> doors = new LinkedHashSet<>(WINGS);
    doors.addAll(ArchitectureTest.ROOMS.keySet());
    for (String door : doors) {
      Path file = SOURCES.resolve(door.replace('.', '/')).resolve("package-info.java");
      String text = Files.readString(file);
      assertTrue(text.contains("Begin with"), file.toString());
      Matcher name = NAMED.matcher(text);
      while (name.find()) {
        Path named = Path.of("src/main/java", name.group(1).replace('.', '/') + ".java");
        assertTrue(Files.exists(named), file + ": " + name.group(1));
      }
    }
  }

  @Test
  void everyPackageNamedInARuleIsThere() throws IOException {
    Set<String> there = new LinkedHashSet<>();
    for (JavaClass one : HOUSE) {
      there.add(one.getPackageName());
      one.getDirectDependenciesFromSelf()
          .forEach(dependency -> there.add(dependency.getTargetClass().getPackageName()));
    }
    List<String> named = new ArrayList<>();
    Matcher pattern = PACKAGE.matcher(rules());
    while (pattern.find()) {
      named.add(pattern.group(1));
      PackageMatcher matcher = PackageMatcher.of(pattern.group(1).replaceAll("(?<!\\.\\.)$", ".."));
      assertTrue(there.stream().anyMatch(matcher::matches), pattern.group(1));
    }
    assertTrue(named.contains("ai.timefold.."), named.toString());
  }

  @Test
  void noRuleMayHoldOfNothing() throws IOException {
    assertFalse(rules().contains("allowEmpty"));
    assertFalse(Files.exists(Path.of("src/test/resources/archunit.properties")));
  }

  private static String rules() throws IOException {
    return Files.readString(Path.of("src/test/java/quadrille/ArchitectureTest.java"));
  }
}
