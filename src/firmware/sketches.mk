# The library and its examples, for AVR with Debian's Arduino core and for Cortex-M on bare metal.
#   make sketches-avr    needs gcc-avr, avr-libc, binutils-avr, arduino-core-avr
#   make sketches-arm    needs gcc-arm-none-eabi, libnewlib-arm-none-eabi
# Every example is compiled for both. Of those for Cortex-M the one that needs no pin is linked, for
# the board of qemu-system-arm.

SKETCHES = $(notdir $(wildcard library/examples/*))
LIBRARY_SOURCES = $(wildcard $(LIBRARY)/*.cpp $(LIBRARY)/core/*.c)
LIBRARY_HEADERS = $(wildcard $(LIBRARY)/*.h $(LIBRARY)/core/*.h)
SKETCH_WARNINGS = -Wall -Wextra -Werror
SKETCH_FLAGS = -Os -ffunction-sections -fdata-sections
CXX_FLAGS = -fno-exceptions -fno-rtti -fno-threadsafe-statics

# AVR: the board of the core that most have. C++ as old as its own compiler option says.
ARDUINO ?= /usr/share/arduino/hardware/arduino/avr
ARDUINO_CORE = $(ARDUINO)/cores/arduino
AVR_SKETCH_FLAGS = $(SKETCH_FLAGS) -flto -fno-fat-lto-objects -mmcu=$(MCU) -DF_CPU=16000000UL -DARDUINO=10819 -DDECIMAL_DIG=__DECIMAL_DIG__ \
  -DARDUINO_ARCH_AVR -I$(ARDUINO_CORE) -I$(ARDUINO)/variants/standard \
  -I$(ARDUINO)/libraries/Wire/src -I$(ARDUINO)/libraries/SPI/src
AVR_CXX = avr-g++ -std=gnu++11 $(CXX_FLAGS) $(AVR_SKETCH_FLAGS)
AVR_C = avr-gcc -std=gnu11 $(AVR_SKETCH_FLAGS)
THEIR_AVR_SOURCES = $(wildcard $(ARDUINO_CORE)/*.c $(ARDUINO_CORE)/*.cpp) \
  $(ARDUINO)/libraries/Wire/src/Wire.cpp $(ARDUINO)/libraries/Wire/src/utility/twi.c \
  $(ARDUINO)/libraries/SPI/src/SPI.cpp
AVR_OBJECTS = $(patsubst $(LIBRARY)/%,$(OUT)/avr/%.o,$(LIBRARY_SOURCES))
THEIR_AVR_OBJECTS = $(patsubst $(ARDUINO)/%,$(OUT)/avr/theirs/%.o,$(THEIR_AVR_SOURCES))

.PHONY: sketches-avr sketches-arm

sketches-avr: $(SKETCHES:%=$(OUT)/avr/%.elf)
	@for sketch in $^; do avr-size $$sketch | awk -v name=$$(basename $$sketch .elf) \
	  'NR == 2 { printf "%s: flash %d, static RAM %d bytes\n", name, $$1 + $$2, $$2 + $$3 }'; done

$(OUT)/avr/%.c.o: $(LIBRARY)/%.c $(LIBRARY_HEADERS)
	@mkdir -p $(@D)
	$(AVR_C) $(SKETCH_WARNINGS) -c -o $@ $<
$(OUT)/avr/%.cpp.o: $(LIBRARY)/%.cpp $(LIBRARY_HEADERS)
	@mkdir -p $(@D)
	$(AVR_CXX) $(SKETCH_WARNINGS) -c -o $@ $<
$(OUT)/avr/theirs/%.c.o: $(ARDUINO)/%.c
	@mkdir -p $(@D)
	$(AVR_C) -w -c -o $@ $<
$(OUT)/avr/theirs/%.cpp.o: $(ARDUINO)/%.cpp
	@mkdir -p $(@D)
	$(AVR_CXX) -w -c -o $@ $<
.SECONDEXPANSION:
$(OUT)/avr/%.elf: library/examples/$$*/$$*.ino $(AVR_OBJECTS) $(THEIR_AVR_OBJECTS)
	$(AVR_CXX) $(SKETCH_WARNINGS) -I$(LIBRARY) -include Arduino.h -Wl,--gc-sections -o $@ \
	  -x c++ $< -x none $(AVR_OBJECTS) $(THEIR_AVR_OBJECTS) -lm

# Cortex-M.
BARE = board/cortex-m
ARM_FLAGS = $(SKETCH_FLAGS) $(SKETCH_WARNINGS) -Wconversion -g -mcpu=cortex-m3 -mthumb -ffreestanding -fno-math-errno \
  -I$(BARE)/arduino -I$(LIBRARY)
ARM_CXX = arm-none-eabi-gcc -std=gnu++17 $(CXX_FLAGS) -fno-use-cxa-atexit $(ARM_FLAGS)
ARM_C = arm-none-eabi-gcc -std=gnu11 $(ARM_FLAGS)
ARM_HEADERS = $(LIBRARY_HEADERS) $(wildcard $(BARE)/arduino/*.h)
ARM_OBJECTS = $(patsubst $(LIBRARY)/%,$(OUT)/arm/%.o,$(LIBRARY_SOURCES))
BARE_SOURCES = $(wildcard $(BARE)/*.cpp $(BARE)/arduino/*.cpp)
BARE_OBJECTS = $(patsubst %,$(OUT)/arm/%.o,$(BARE_SOURCES))

sketches-arm: $(SKETCHES:%=$(OUT)/arm/%.ino.o) $(OUT)/cortex-m.elf

$(OUT)/cortex-m.elf: $(OUT)/arm/WithoutConverter.ino.o $(ARM_OBJECTS) $(BARE_OBJECTS) $(BARE)/mps2.ld
	arm-none-eabi-gcc -mcpu=cortex-m3 -mthumb -nostartfiles -T $(BARE)/mps2.ld -Wl,--gc-sections \
	  -o $@ $(filter %.o,$^) -lm -lc -lgcc

$(OUT)/arm/%.c.o: $(LIBRARY)/%.c $(ARM_HEADERS)
	@mkdir -p $(@D)
	$(ARM_C) -c -o $@ $<
$(OUT)/arm/%.cpp.o: $(LIBRARY)/%.cpp $(ARM_HEADERS)
	@mkdir -p $(@D)
	$(ARM_CXX) -c -o $@ $<
$(OUT)/arm/$(BARE)/%.cpp.o: $(BARE)/%.cpp $(ARM_HEADERS)
	@mkdir -p $(@D)
	$(ARM_CXX) -c -o $@ $<
$(OUT)/arm/%.ino.o: library/examples/$$*/$$*.ino $(ARM_HEADERS)
	@mkdir -p $(@D)
	$(ARM_CXX) -include Arduino.h -c -o $@ -x c++ $<

# On this machine, against simulated parts.
HOST_CXX = g++ -std=c++17 -O0 -g -Wall -Wextra -Wno-missing-field-initializers -Werror -I$(BARE)/arduino -I$(LIBRARY) -I$(LIBRARY)/core \
  -Itest -fsanitize=address,undefined -fno-sanitize-recover=all
LIBRARY_TEST_SOURCES = test/library_test.cpp $(wildcard $(LIBRARY)/*.cpp) $(BARE)/arduino/Print.cpp
HOST_CORE = $(patsubst $(LIBRARY)/%,$(OUT)/host/%.o,$(CORE))

.PHONY: library-test
library-test: $(OUT)/library-test
	$(OUT)/library-test

$(OUT)/host/%.c.o: $(LIBRARY)/%.c $(LIBRARY_HEADERS)
	@mkdir -p $(@D)
	$(HOST_CC) $(HOST_FLAGS) -c -o $@ $<

$(OUT)/library-test: $(LIBRARY_TEST_SOURCES) $(HOST_CORE) $(ARM_HEADERS) test/wiretap.h
	$(HOST_CXX) -o $@ $(LIBRARY_TEST_SOURCES) $(HOST_CORE)
