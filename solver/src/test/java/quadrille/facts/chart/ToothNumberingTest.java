package quadrille.facts.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

final class ToothNumberingTest {

  /**
   * All 32 permanent teeth as they are seen from the front, upper jaw from the patient's right to
   * left and lower jaw from left to right. The two-digit codes are those of ISO 3950 (Dentistry,
   * Designation system for teeth and areas of the oral cavity): quadrant 1 upper right, 2 upper
   * left, 3 lower left, 4 lower right; position 1 central incisor to 8 third molar. The numbers run
   * from 1, the upper right third molar, along the upper jaw to 16, and from 17, the lower left
   * third molar, back along the lower jaw to 32.
   */
  @ParameterizedTest
  @CsvSource({
    "18,  1, UR, 8", "17,  2, UR, 7", "16,  3, UR, 6", "15,  4, UR, 5",
    "14,  5, UR, 4", "13,  6, UR, 3", "12,  7, UR, 2", "11,  8, UR, 1",
    "21,  9, UL, 1", "22, 10, UL, 2", "23, 11, UL, 3", "24, 12, UL, 4",
    "25, 13, UL, 5", "26, 14, UL, 6", "27, 15, UL, 7", "28, 16, UL, 8",
    "38, 17, LL, 8", "37, 18, LL, 7", "36, 19, LL, 6", "35, 20, LL, 5",
    "34, 21, LL, 4", "33, 22, LL, 3", "32, 23, LL, 2", "31, 24, LL, 1",
    "41, 25, LR, 1", "42, 26, LR, 2", "43, 27, LR, 3", "44, 28, LR, 4",
    "45, 29, LR, 5", "46, 30, LR, 6", "47, 31, LR, 7", "48, 32, LR, 8"
  })
  void bothNumberings(int iso, int number, Quadrant quadrant, int position) {
    Tooth tooth = new Tooth(quadrant, position);
    assertEquals(iso, tooth.iso());
    assertEquals(number, tooth.universal());
    assertEquals(tooth, Tooth.ofIso(iso));
    assertEquals(Integer.toString(iso), Numbering.ISO3950.name(tooth));
    assertEquals(Integer.toString(number), Numbering.UNIVERSAL.name(tooth));
  }

  @Test
  void thirtyTwoTeethAndNoneTwice() {
    List<Integer> numbers = new ArrayList<>();
    for (int number = 1; number <= 32; number++) {
      numbers.add(number);
    }
    assertEquals(numbers, Tooth.values().stream().map(Tooth::universal).sorted().toList());
    assertEquals(32, Tooth.values().stream().map(Tooth::iso).distinct().count());
  }

  @ParameterizedTest
  @ValueSource(ints = {-11, 0, 1, 10, 19, 20, 29, 39, 40, 49, 51, 85, 111})
  void noOtherIsoCodeIsATooth(int code) {
    assertThrows(IllegalArgumentException.class, () -> Tooth.ofIso(code));
  }

  /**
   * Which teeth have roots that part: molars and upper first premolars (common anatomy, no one
   * source). ISO 3950 codes.
   */
  @Test
  void onlyMolarsAndUpperFirstPremolarsCanHaveAFurcation() {
    assertEquals(
        List.of(14, 16, 17, 18, 24, 26, 27, 28, 36, 37, 38, 46, 47, 48),
        Tooth.values().stream().filter(Tooth::furcated).map(Tooth::iso).toList());
  }
}
