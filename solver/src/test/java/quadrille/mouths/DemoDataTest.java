package quadrille.mouths;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import quadrille.practice.Practice;
import quadrille.practice.PracticeReader;

/** Holds that the demo data can be read, and shows what it says it shows. */
final class DemoDataTest {

  private static final Path DEMO = Path.of("..", "demo-data");

  @Test
  void smallClinicDiffersFromTheDefaultWhereItSays() throws Exception {
    Practice defaults = PracticeReader.defaults();
    Practice clinic = smallClinic();
    assertTrue(clinic.name().startsWith("DEMO"), clinic.name());
    assertEquals(15, clinic.appointments().unitMinutes().asInt());
    assertEquals(90, clinic.minutes().tipChangeSeconds().asInt());
    assertEquals("articaine-4-200", clinic.preferredAgents().get(0));
    assertTrue(clinic.gel().owned());
    assertFalse(defaults.gel().owned());
    assertEquals(defaults.inserts().size() - 1, clinic.inserts().size());
    assertFalse(clinic.inserts().containsKey("standard triple-bend"));
    assertEquals(defaults.weights(), clinic.weights());
    assertEquals(defaults.selection(), clinic.selection());
  }

  private static Practice smallClinic() throws Exception {
    Path file = DEMO.resolve("small-clinic.practice.json");
    return PracticeReader.read(file.toString(), Files.readString(file));
  }
}
