// Nothing: the headers that all tests read are compiled once with this file (see CMakeLists.txt).
