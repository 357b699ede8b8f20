package snick.journal;

import snick.journal.name.Field;

/**
 * One lot of test filament. A new lot is compared with the old one on a reference edge.
 *
 * @param lot own name of the lot, its key, 1 to 120 characters
 * @param material for example nylon monofilament, 1 to 120 characters
 * @param diameterMm 0.01 to 5 mm
 */
public record FilamentLot(String lot, String material, double diameterMm) {
  public FilamentLot {
    lot = Field.name("filament lot", lot);
    material = Field.name("filament material", material);
    Field.within("filament diameter", diameterMm, 0.01, 5, "mm");
  }
}
