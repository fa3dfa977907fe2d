# cmake -DINPUT=file -DOUTPUT=file.c -DSYMBOL=name -DHEADER=header -P embed_file.cmake
cmake_minimum_required(VERSION 3.25)
file(READ ${INPUT} hex HEX)
string(LENGTH "${hex}" digits)
math(EXPR size "${digits} / 2")
string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${hex}")
string(REGEX REPLACE "((0x..,){16})" "\\1\n    " bytes "${bytes}")
file(WRITE ${OUTPUT} "#include \"${HEADER}\"\n\n"
     "const unsigned char qll_file_${SYMBOL}[] = {\n    ${bytes}0x00};\n"
     "const size_t qll_file_${SYMBOL}_size = ${size};\n")
