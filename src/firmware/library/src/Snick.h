// Force rigs that speak the protocol of firmware-protocol.md, in an Arduino sketch.
#pragma once

#include "I2cConverter.h"
#include "OwnReadings.h"
#include "Rig.h"
#include "SpiConverter.h"
#include "TextLines.h"
#include "TwoWireConverter.h"
