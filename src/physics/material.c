#include "physics/material.h"

#include "base/count.h"
#include "base/customary.h"

#include <assert.h>

/* Poisson, expansion and density are handbook values from memory throughout; the moduli of copper,
 * steel, PEX and CPVC are those of the wave-speed figures in tests/reference/surge.csv. The sound
 * speed of steel is that of the example in IEC 60534-8-4, annex A. */
static const qll_material materials[] = {
    {"copper", true, 117e9, 0.34, 16.5e-6, 8940, 3600, 250 * QLL_PSI_PA,
     "handbook values of copper, from memory"},
    {"steel", true, 207e9, 0.30, 11.7e-6, 7800, 5000, 300 * QLL_PSI_PA,
     "handbook values of carbon steel, from memory; density and sound speed IEC 60534-8-4 annex A"},
    {"stainless steel", true, 193e9, 0.29, 16.0e-6, 7900, 4900, 300 * QLL_PSI_PA,
     "handbook values of austenitic steel, from memory"},
    {"PEX", false, 0.7e9, 0.46, 150e-6, 940, 860, 1.5 * 160 * QLL_PSI_PA,
     "short-term values of PEX, from memory"},
    {"PE-X", false, 0.7e9, 0.46, 150e-6, 940, 860, 1.5 * 160 * QLL_PSI_PA,
     "short-term values of PE-X, from memory"},
    {"CPVC", false, 2.9e9, 0.38, 63e-6, 1550, 1400, 400 * QLL_PSI_PA,
     "short-term values of CPVC, from memory"},
    {"PP", false, 0.9e9, 0.42, 150e-6, 900, 1000, 15e5, "short-term values of PP-R, from memory"},
    {"PB", false, 0.4e9, 0.47, 130e-6, 920, 660, 15e5, "short-term values of PB, from memory"},
};

enum {
    QLL_MATERIAL_COUNT = QLL_COUNT(materials)
};

const qll_material *qll_materials(size_t *count)
{
    assert(count != NULL);
    *count = QLL_MATERIAL_COUNT;
    return materials;
}

const qll_material *qll_material_find(qll_text word)
{
    for (size_t i = 0; i < QLL_MATERIAL_COUNT; i++) {
        if (qll_text_is(word, materials[i].word)) {
            return &materials[i];
        }
    }
    return NULL;
}
